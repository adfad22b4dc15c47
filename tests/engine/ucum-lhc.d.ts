declare module '@lhncbc/ucum-lhc' {
  export interface Conversion {
    readonly status: string;
    readonly toVal: number | null;
  }
  export interface Substance {
    readonly molecularWeight?: number;
    readonly charge?: number;
  }
  export class UcumLhcUtils {
    static getInstance(): UcumLhcUtils;
    validateUnitString(unit: string): { readonly status: string };
    convertUnitTo(from: string, value: number, to: string, options?: Substance): Conversion;
  }
}
