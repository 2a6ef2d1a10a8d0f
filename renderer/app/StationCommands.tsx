import { useEffect } from 'react';
import { useLocation } from 'wouter';
import type { LibraryView } from '../../electron/service/views.ts';
import { dispatcher, useCommand } from '../commands/Commands.tsx';
import { commandMenu } from '../commands/menu.ts';
import { cache, keys } from '../service/cache.ts';
import { service } from '../service/client.ts';
import { desktop } from '../service/desktop.ts';
import { changePlays } from '../service/gesture.ts';
import { tellDone } from '../service/problems.ts';

const library = () => cache.getQueryData<LibraryView>(keys.library);

async function undo(): Promise<void> {
  const what = library()?.undo;
  if (what && (await changePlays(service.undo))) tellDone(`Taken back: ${what}`);
}

async function redo(): Promise<void> {
  const what = library()?.redo;
  if (what && (await changePlays(service.redo))) tellDone(`Done again: ${what}`);
}

/** Binds what works in every room. */
export function StationCommands() {
  const [, navigate] = useLocation();
  useCommand('room.film', () => navigate('/film'));
  useCommand('room.log', () => navigate('/log'));
  useCommand('room.ask', () => navigate('/ask'));
  useCommand('room.teach', () => navigate('/teach'));
  useCommand('room.playbook', () => navigate('/playbook'));
  useCommand('edit.undo', () => void undo());
  useCommand('edit.redo', () => void redo());
  useCommand('page.print', () => window.print());
  useEffect(() => desktop()?.setMenus?.(commandMenu(), (name) => dispatcher.run(name)), []);
  return null;
}
