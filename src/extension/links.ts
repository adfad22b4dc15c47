/** Links of the file system: what is read for a note must lie in its workspace, wherever its address seems to be. */
import * as vscode from 'vscode';

/** Whether a file is reached by a link that leads, or may lead, out of the folder `top`; false where there is none. */
export type LeadsOut = (file: vscode.Uri, top: vscode.Uri) => Promise<boolean>;

/** Where nothing tells where a link leads, every link may lead out. */
export const anyLink: LeadsOut = async (file, top) => {
  for (let uri = file; uri.path.length > top.path.length; uri = vscode.Uri.joinPath(uri, '..')) {
    try {
      const { type } = await vscode.workspace.fs.stat(uri);
      if (type & vscode.FileType.SymbolicLink) return true;
    } catch {
      // What is not there leads nowhere, and is not read either.
    }
  }
  return false;
};
