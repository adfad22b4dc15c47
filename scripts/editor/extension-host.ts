/** Code that VS Code loads into its extension host. */
import { build } from 'esbuild';

/** One CommonJS module with all that `entry` imports but `vscode`. */
export async function bundleForExtensionHost(entry: string, platform: 'browser' | 'node'): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: 'cjs',
    platform,
    target: 'es2022',
    external: ['vscode'],
    logLevel: 'warning',
  });
  return outputFiles[0]?.text ?? '';
}
