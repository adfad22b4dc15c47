/**
 * SARIF 2.1.0 (Static Analysis Results Interchange Format, OASIS Standard, with Errata 01 of 2023). Results are written
 * first and the rules that they name last, so that nothing is kept but the codes.
 */
import { isAbsolute, relative, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import packageJson from '../../package.json' with { type: 'json' };
import { CHECKS } from '../checks/index.ts';
import { terminalSafeJson } from '../render/index.ts';
import type { AcceptedReport, DiagnosticReport, Range, Severity } from '../service/index.ts';
import type { Outcome, ReportedFile, Reporter } from './reporter.ts';

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';
const LEVELS: Readonly<Record<Severity, 'error' | 'warning' | 'note'>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

export class SarifReporter implements Reporter {
  private empty = true;
  /** The place of each rule in the list of rules, by its code. */
  private readonly rules = new Map<string, number>();
  private readonly refusals: string[] = [];

  begin(): string {
    return `{"$schema":${JSON.stringify(SCHEMA)},"version":"2.1.0","runs":[{"columnKind":"utf16CodeUnits","results":[`;
  }

  file({ path, report }: ReportedFile): string {
    const results = [
      ...report.diagnostics.map((finding) => this.result(path, finding, null)),
      ...report.accepted.map((finding) => this.result(path, finding, finding)),
    ];
    return results
      .map((result) => {
        const before = this.empty ? '\n' : ',\n';
        this.empty = false;
        return before + terminalSafeJson(JSON.stringify(result));
      })
      .join('');
  }

  refused(reason: string): string {
    this.refusals.push(reason);
    return '';
  }

  end({ exitCode }: Outcome): string {
    const rest = {
      tool: {
        driver: {
          name: packageJson.name,
          fullName: packageJson.displayName,
          version: packageJson.version,
          semanticVersion: packageJson.version,
          rules: [...this.rules.keys()].map(ruleOf),
        },
      },
      // Where it lies is the reader's to say: the path of this machine is of no use elsewhere.
      originalUriBaseIds: { '%SRCROOT%': { description: { text: 'The folder in which the notes were checked.' } } },
      invocations: [
        {
          executionSuccessful: this.refusals.length === 0,
          exitCode,
          toolExecutionNotifications: this.refusals.map((reason) => ({
            level: 'error',
            message: { text: plain(reason) },
          })),
        },
      ],
    };
    return `${this.empty ? '' : '\n'}],${terminalSafeJson(JSON.stringify(rest)).slice(1, -1)}}]}\n`;
  }

  private result(path: string, finding: DiagnosticReport, accepted: AcceptedReport | null): object {
    return {
      ruleId: finding.code,
      ruleIndex: this.indexOf(finding.code),
      level: LEVELS[finding.severity],
      message: { text: plain(finding.message) },
      locations: [{ physicalLocation: physical(path, finding.range) }],
      ...(finding.related.length === 0
        ? {}
        : {
            relatedLocations: finding.related.map(({ message, range }, index) => ({
              id: index + 1,
              message: { text: plain(message) },
              physicalLocation: physical(path, range),
            })),
          }),
      // Of all results or of none: a result without the list is one of which it is not known.
      suppressions: accepted ? [{ kind: 'inSource', status: 'accepted', justification: oneLine(accepted.reason) }] : [],
    };
  }

  private indexOf(code: string): number {
    const index = this.rules.get(code) ?? this.rules.size;
    this.rules.set(code, index);
    return index;
  }
}

/** With the page of the check in it: an address for help has to be absolute, and the pages lie beside the program. */
function ruleOf(code: string): object {
  const { title, severity, page } = CHECKS.find((check) => check.code === code)!;
  return {
    id: code,
    shortDescription: { text: plain(title) },
    help: { text: plain(page), markdown: braced(page) },
    defaultConfiguration: { level: LEVELS[severity] },
    properties: { severity, page: `docs/checks/${code}.md` },
  };
}

function physical(path: string, range: Range): object {
  return { artifactLocation: artifactOf(path), region: regionOf(range) };
}

function artifactOf(path: string): object {
  const below = relative(process.cwd(), resolve(path));
  if (/^\.\.(?:[/\\]|$)/.test(below) || isAbsolute(below)) return { uri: pathToFileURL(resolve(path)).href };
  return { uri: wellFormed(path).split('/').map(encodeURIComponent).join('/'), uriBaseId: '%SRCROOT%' };
}

/** Counted from one; the end is the place behind the last character. */
function regionOf({ start, end }: Range): object {
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}

/** A message that holds no placeholder and no link: braces are doubled (§ 3.11.5), and no target follows a bracket (§ 3.11.6). */
function plain(text: string): string {
  return braced(text).replaceAll('](', '] (');
}

function braced(text: string): string {
  return text.replace(/[{}]/g, '$&$&');
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}

/** Half characters, which no address can hold, are replaced. */
function wellFormed(text: string): string {
  return text.replace(/[\uD800-\uDFFF]/gu, '\uFFFD');
}
