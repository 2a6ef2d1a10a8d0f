import { type ReactNode, useCallback, useState } from 'react';
import { desktop } from '../../service/desktop.ts';
import { Dialog } from '../Dialog.tsx';
import { FolderBrowser } from './FolderBrowser.tsx';
import type { PathKind } from './folder-list.ts';
import { SaveBrowser } from './SaveBrowser.tsx';

export type PathRequest =
  | { readonly for: 'open'; readonly kind: PathKind; readonly title: string; readonly many: boolean }
  | {
      readonly for: 'save';
      readonly title: string;
      readonly suggested: string;
      /** with the dot, the usual one first */
      readonly endings: readonly string[];
    };

interface Waiting {
  readonly request: PathRequest;
  readonly answer: (paths: readonly string[] | null) => void;
}

/** Paths of this machine: by the native dialog inside the shell, else by a chooser in the window. */
export function usePathChooser(): {
  readonly choose: (request: PathRequest) => Promise<readonly string[] | null>;
  readonly dialog: ReactNode;
} {
  const [waiting, setWaiting] = useState<Waiting | null>(null);

  const choose = useCallback((request: PathRequest) => {
    const bridge = desktop();
    if (bridge) return chooseNatively(bridge, request);
    return new Promise<readonly string[] | null>((answer) => setWaiting({ request, answer }));
  }, []);

  const settle = (paths: readonly string[] | null) => {
    waiting?.answer(paths);
    setWaiting(null);
  };

  const request = waiting?.request;
  const dialog = (
    <Dialog
      opened={request !== undefined}
      onClose={() => settle(null)}
      title={request?.title ?? ''}
      size="min(760px, 92vw)"
    >
      {request?.for === 'open' && <FolderBrowser kind={request.kind} many={request.many} onChosen={settle} />}
      {request?.for === 'save' && (
        <SaveBrowser
          suggested={request.suggested}
          endings={request.endings}
          onChosen={(path) => settle([path])}
        />
      )}
    </Dialog>
  );
  return { choose, dialog };
}

async function chooseNatively(
  bridge: NonNullable<ReturnType<typeof desktop>>,
  request: PathRequest,
): Promise<readonly string[] | null> {
  if (request.for === 'save') {
    const path = await bridge.saveAs(request.suggested);
    return path === null ? null : [path];
  }
  if (request.kind === 'folder') {
    const folder = await bridge.chooseFolder();
    return folder === null ? null : [folder];
  }
  const paths = await bridge.chooseFiles(request.kind);
  return paths && !request.many ? paths.slice(0, 1) : paths;
}
