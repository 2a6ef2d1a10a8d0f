import { v7 as uuidv7 } from 'uuid';
import type { Library } from '../../../db/library.ts';
import { guessAngle, guessPlayNumbers } from '../../film/names.ts';
import type { Angle } from '../views.ts';

export interface PlayPlace {
  readonly playId: string;
  readonly playNumber: number;
  /** the play is not in the library yet */
  readonly fresh: boolean;
}

interface KnownPlay {
  readonly playId: string;
  readonly number: number;
  /** angles of which it has film, or the place of a film that could not be read */
  readonly angles: Set<string>;
}

/**
 * Which play each file of an import shows. Where the names carry play numbers (all of one angle, each once), the number says
 * it. Else the files of an angle are taken in order: where there are as many files as plays without this angle, each play
 * gets one; else the next play that has film but not of this angle, or a new play.
 */
export class PlayPlaces {
  private readonly plays: KnownPlay[];
  private readonly angleOf: ReadonlyMap<string, Angle>;
  private readonly numbers: ReadonlyMap<string, number | null>;
  private readonly numbered: ReadonlySet<Angle>;
  /** angles whose files pair with every play, also with one that has no film at all */
  private readonly onePerPlay: ReadonlySet<Angle>;
  /** index of the play of the last film that was there already */
  private readonly passed = new Map<Angle, number>();

  /** @param given the angle of all files; null: as their names tell */
  constructor(library: Library, gameId: string, given: Angle | null, files: readonly string[]) {
    this.plays = playsOf(library, gameId);
    const numbers = guessPlayNumbers(files);
    this.numbers = new Map(files.map((file, i) => [file, numbers[i] ?? null]));
    this.angleOf = new Map(files.map((file) => [file, given ?? guessAngle(file) ?? 'other']));
    const byAngle = new Map<Angle, string[]>();
    for (const [file, angle] of this.angleOf) byAngle.set(angle, [...(byAngle.get(angle) ?? []), file]);
    this.numbered = new Set([...byAngle].filter(([, f]) => this.eachHasItsNumber(f)).map(([angle]) => angle));
    this.onePerPlay = new Set(
      [...byAngle]
        .filter(([angle, f]) => f.length === this.plays.filter((p) => !p.angles.has(angle)).length)
        .map(([angle]) => angle),
    );
  }

  /** The place of the file, which is taken from then on. */
  next(file: string): PlayPlace {
    const angle = this.angleOf.get(file)!;
    const number = this.numbered.has(angle) ? (this.numbers.get(file) ?? null) : null;
    const known =
      number === null
        ? this.plays.find((p) => !p.angles.has(angle) && (p.angles.size > 0 || this.onePerPlay.has(angle)))
        : this.plays.find((p) => p.number === number);
    if (known && !known.angles.has(angle)) {
      known.angles.add(angle);
      return { playId: known.playId, playNumber: known.number, fresh: false };
    }
    const playNumber =
      number !== null && !known ? number : Math.max(0, ...this.plays.map((p) => p.number)) + 1;
    const playId = uuidv7();
    this.plays.push({ playId, number: playNumber, angles: new Set([angle]) });
    return { playId, playNumber, fresh: true };
  }

  /** A file whose film is in the library already, with its plays: the files after it go on from there. */
  pass(file: string, playIds: readonly string[]): void {
    const at = this.plays.findLastIndex((p) => playIds.includes(p.playId));
    if (at >= 0) this.passed.set(this.angleOf.get(file)!, at);
  }

  /** The place that a file would have had which can't be read; null where numbers in the names keep every play in place. */
  keep(file: string): PlayPlace | null {
    const angle = this.angleOf.get(file)!;
    if (this.numbered.has(angle)) return null;
    // the same files a second time: the place that was kept before stands right after the film before it
    const at = (this.passed.get(angle) ?? -1) + 1;
    const kept = this.plays[at];
    if (kept?.angles.size !== 0) return this.next(file);
    kept.angles.add(angle);
    this.passed.set(angle, at);
    return { playId: kept.playId, playNumber: kept.number, fresh: false };
  }

  private eachHasItsNumber(files: readonly string[]): boolean {
    const numbers = files.map((file) => this.numbers.get(file) ?? null);
    return !numbers.includes(null) && new Set(numbers).size === numbers.length;
  }
}

function playsOf(library: Library, gameId: string): KnownPlay[] {
  const rows = library.db
    .prepare(
      `SELECT p.id AS playId, coalesce(p.play_number, 0) AS number, coalesce(group_concat(c.angle), '') AS angles
       FROM plays p LEFT JOIN clips c ON c.play_id = p.id AND c.removed = 0
       WHERE p.game_id = ? AND p.removed = 0 GROUP BY p.id ORDER BY p.play_number, p.id`,
    )
    .all(gameId) as { playId: string; number: number; angles: string }[];
  return rows.map((p) => ({ ...p, angles: new Set(p.angles.split(',').filter(Boolean)) }));
}
