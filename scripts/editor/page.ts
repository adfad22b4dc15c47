/** The page that opens VS Code in the browser: its scripts, then one call with what to show. */

/** An address as VS Code takes it from outside. */
export interface Address {
  readonly scheme: string;
  readonly authority: string;
  readonly path: string;
}

export interface Workbench {
  readonly host: string;
  readonly folder: Address;
  /** The note to open beside its preview, or null for an empty window. */
  readonly note: Address | null;
  /** A module with `run(): Promise<void>` to run in the extension host, or null. */
  readonly tests: Address | null;
  /** A colour theme by the id that VS Code's settings have, or null for the one it begins with. */
  readonly theme: string | null;
  /** Whether the folder is trusted. */
  readonly trusted: boolean;
}

/** What `configuration` in the page's call of VS Code's `create` holds. */
function configuration({ host, folder, note, tests, theme, trusted }: Workbench): object {
  const served = (path: string): Address => ({ scheme: 'http', authority: host, path });
  const meniscus = served('/meniscus');
  return {
    productConfiguration: {
      nameShort: 'Meniscus',
      nameLong: 'Meniscus in VS Code',
      applicationName: 'meniscus-demo',
      dataFolderName: '.meniscus-demo',
      version: '1.91.1',
      enableTelemetry: false,
      extensionEnabledApiProposals: { 'meniscus.served-folder': ['fileSearchProvider'] },
      webviewContentExternalBaseUrlTemplate: `http://${host}/code/out/vs/workbench/contrib/webview/browser/pre/`,
    },
    additionalBuiltinExtensions: [served('/served-folder'), ...(tests ? [] : [meniscus])],
    ...(tests ? { developmentOptions: { extensions: [meniscus], extensionTestsPath: tests } } : {}),
    folderUri: folder,
    enableWorkspaceTrust: !trusted,
    configurationDefaults: {
      'workbench.startupEditor': 'none',
      'workbench.tips.enabled': false,
      'security.workspace.trust.startupPrompt': 'never',
      'security.workspace.trust.banner': 'never',
      'editor.minimap.enabled': false,
      'git.enabled': false,
      ...(theme ? { 'workbench.colorTheme': theme } : {}),
    },
    ...(note ? { defaultLayout: beside(note) } : {}),
  };
}

function beside(note: Address): object {
  const options = { override: 'vscode.markdown.preview.editor', preserveFocus: true, activation: 1 };
  const preview = { uri: note, viewColumn: 2, options };
  const layout = { editors: { orientation: 0, groups: [{ size: 0.5 }, { size: 0.5 }] } };
  return { force: true, layout, editors: [{ uri: note, viewColumn: 1 }, preview] };
}

const open = `
  const code = new URL('/code', location.href).href;
  for (const name of Object.keys(webPackagePaths)) webPackagePaths[name] = code + '/node_modules/' + name + '/' + webPackagePaths[name];
  require.config({ baseUrl: code + '/out', recordStats: false, paths: webPackagePaths });`;

const create = `
  require(['vs/workbench/workbench.web.main'], ({ create, URI }) => {
    const { folderUri, defaultLayout, ...rest } = configuration;
    const revive = (editor) => ({ ...editor, uri: URI.revive(editor.uri) });
    create(document.body, {
      ...rest,
      additionalBuiltinExtensions: rest.additionalBuiltinExtensions.map((uri) => URI.revive(uri)),
      defaultLayout: defaultLayout && { ...defaultLayout, editors: defaultLayout.editors.map(revive) },
      workspaceProvider: { workspace: { folderUri: URI.revive(folderUri) }, trusted: !rest.enableWorkspaceTrust, payload: undefined, open: async () => false },
    });
  });`;

export function page(workbench: Workbench): string {
  const json = JSON.stringify(configuration(workbench)).replaceAll('<', '\\u003c');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>Meniscus</title>
<link rel="icon" href="/code/favicon.ico">
<link rel="stylesheet" data-name="vs/workbench/workbench.web.main" href="/code/out/vs/workbench/workbench.web.main.css">
</head>
<body aria-label="">
<script src="/code/out/vs/loader.js"></script>
<script src="/code/out/vs/webPackagePaths.js"></script>
<script>${open}</script>
<script src="/code/out/vs/workbench/workbench.web.main.nls.js"></script>
<script src="/code/out/vs/workbench/workbench.web.main.js"></script>
<script>const configuration = ${json};${create}</script>
</body>
</html>
`;
}
