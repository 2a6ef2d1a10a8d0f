import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { v7 as uuidv7 } from 'uuid';
import type { Change } from '../../../db/journal/edit.ts';
import { momentId } from '../../../db/journal/entities.ts';
import { createLibrary } from '../../../db/library.ts';
import { MOMENT_KINDS } from '../../../football/play.ts';
import { ProblemError } from '../../../football/result.ts';
import type { FieldValue } from '../../../football/values.ts';
import { BUILT_IN_FIELDS, type FieldDefinition } from '../../../football/vocabulary/fields.ts';
import type {
  SampleClip,
  SampleGame,
  SamplePlay,
  SamplePlayerRef,
} from '../../../sample-clips/sample-game.ts';
import { startMicros } from '../../film/frame-table.ts';
import { makeCutup } from '../actions/cutups.ts';
import { fieldChanges } from '../actions/field-changes.ts';
import { addGame } from '../actions/games.ts';
import { valueFromPlain } from '../actions/plain-value.ts';
import { setPlayer, setReadRule } from '../actions/playbook.ts';
import { saveQuestion } from '../actions/questions.ts';
import { addFilms } from '../film/add-films.ts';
import { frameTableOf } from '../film/shelf.ts';
import { Station } from '../station.ts';

const PERSON = 'sample';

/**
 * Makes the sample library: one invented game, its film beside `sample-game.json`, the first half logged and the second
 * half waiting to be logged.
 * @param filmFolder where the sample film lies; it is referenced, not copied
 */
export async function makeSampleLibrary(path: string, filmFolder: string): Promise<void> {
  const game = JSON.parse(readFileSync(join(filmFolder, 'sample-game.json'), 'utf8')) as SampleGame;
  const library = createLibrary(path, { team: game.team, level: game.game.level }, { person: PERSON });
  const station = new Station(library, PERSON);
  try {
    const { title, season, week, date, opponent } = game.game;
    addGame(station, { title, season, week, date, opponent });
    for (const { number, name, position, team } of game.roster)
      setPlayer(station, null, { number, name, position, team });
    for (const rule of game.readRules) {
      setReadRule(station, null, {
        concept: rule.concept,
        keyDefender: rule.keyDefender,
        whenKey: rule.when,
        goTo: rule.goTo,
      });
    }
    const clips = game.plays.flatMap((p) => p.clips);
    const report = await addFilms(station, {
      paths: clips.map((c) => join(filmFolder, c.file)),
      gameTitle: title,
      angle: null,
      onePlayPerFile: true,
    });
    const [refused] = report.refused;
    if (refused) {
      throw new ProblemError({
        code: 'sample-film',
        message: `The sample film ${refused.path} cannot be read: ${refused.reason}`,
        next: 'Get the program again; a file of it is damaged.',
      });
    }
    const filmIds = new Map(report.added.map((f) => [f.path, f.filmId]));
    const playIds = new Map(
      (
        library.db.prepare('SELECT id, play_number AS n FROM plays WHERE removed = 0').all() as {
          id: string;
          n: number;
        }[]
      ).map((r) => [r.n, r.id]),
    );
    for (const play of game.plays) {
      const playId = playIds.get(play.playNumber);
      if (playId === undefined) throw new Error(`The sample has no film of play ${play.playNumber}.`);
      if (play.half === 1)
        await logSamplePlay(station, playId, play, (clip) => filmIds.get(join(filmFolder, clip.file)) ?? '');
    }
    saveQuestion(station, 'Stick, every call', "concept = 'stick'");
    saveQuestion(station, 'Third down against pressure', "down = 3 AND pressure = 'blitz'");
    makeCutup(station, {
      name: 'Completions, first half',
      where: `possession = '${game.team}' AND result = 'complete'`,
    });
    // whoever opens the copy starts with nothing to take back: what was done so far is another station's
    library.db.prepare("UPDATE local SET value = ? WHERE key = 'station'").run(uuidv7());
    library.db.pragma('wal_checkpoint(TRUNCATE)');
  } finally {
    await station.close();
  }
}

async function logSamplePlay(
  station: Station,
  playId: string,
  play: SamplePlay,
  filmIdOf: (clip: SampleClip) => string,
): Promise<void> {
  const [first] = play.clips;
  const film = first ? { filmId: filmIdOf(first), frame: first.moments.snap } : null;
  const context = { film, at: new Date().toISOString() };
  const changes: Change[] = [];
  for (const field of BUILT_IN_FIELDS) {
    if (field.key === 'playNumber' || (field.home !== 'play' && field.home !== 'tag')) continue;
    const value = sampleValue(field, (play as unknown as Record<string, unknown>)[field.key]);
    if (value) changes.push(...fieldChanges(station, playId, field.key, value, context));
  }
  for (const clip of play.clips) {
    const filmId = filmIdOf(clip);
    const table = await frameTableOf(station.library, filmId);
    for (const kind of MOMENT_KINDS) {
      const frame = clip.moments[kind];
      if (frame !== undefined)
        changes.push({
          entity: 'moment',
          id: momentId(playId, filmId, kind),
          field: 'at',
          value: [frame, startMicros(table, frame)],
        });
    }
  }
  station.library.journal.commit({ label: `log play ${play.playNumber}`, film }, changes);
}

/** Players of the sample are named by team and number. */
function sampleValue(field: FieldDefinition, value: unknown): FieldValue | null {
  if (field.kind !== 'player') return value === false ? null : valueFromPlain(field, value);
  if (value === null || value === undefined) return null;
  const { team, number } = value as SamplePlayerRef;
  return { kind: 'player', playerId: null, number, name: null, team };
}
