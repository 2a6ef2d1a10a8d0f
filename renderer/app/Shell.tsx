import { Suspense, useEffect } from 'react';
import { Redirect, Route, Switch, useLocation } from 'wouter';
import { CommandKeys, CommandLayer } from '../commands/Commands.tsx';
import type { RoomName } from '../commands/command.ts';
import { HelpSheet } from '../commands/HelpSheet.tsx';
import { Palette } from '../commands/Palette.tsx';
import { listenToService } from '../service/events.ts';

import { FilmDrawer } from './FilmDrawer.tsx';
import { ROOMS } from './rooms.ts';
import classes from './Shell.module.css';
import { StationCommands } from './StationCommands.tsx';
import { TopBar } from './TopBar.tsx';

const roomAt = (path: string): RoomName | null =>
  ROOMS.find((room) => path === `/${room.name}` || path.startsWith(`/${room.name}/`))?.name ?? null;

/** The window: top bar, the room that is open, and what can lie over any room. */
export function Shell() {
  const [path] = useLocation();
  const room = roomAt(path);
  useEffect(listenToService, []);
  useEffect(() => {
    const label = ROOMS.find((each) => each.name === room)?.label;
    document.title = label ? `${label} · Tapebook` : 'Tapebook';
  }, [room]);
  return (
    <>
      <CommandKeys room={room} />
      <StationCommands />
      <div className={classes.shell}>
        <TopBar room={room} />
        <CommandLayer>
          <main className={classes.room} data-print-flow>
            <Suspense fallback={<p className={classes.opening}>Opening the room…</p>}>
              <Switch>
                {ROOMS.map(({ name, Page }) => (
                  <Route key={name} path={`/${name}/*?`} component={Page} />
                ))}
                <Route>
                  <Redirect to="/log" />
                </Route>
              </Switch>
            </Suspense>
          </main>
        </CommandLayer>
      </div>

      <FilmDrawer />
      <Palette />
      <HelpSheet />
    </>
  );
}
