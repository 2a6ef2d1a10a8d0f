import { type DefenseSlot, LINE_SLOTS, type OffenseSlot, type RunConcept } from './calls.ts';
import { type SideSign, type Spot, spot } from './space.ts';

/** What a blocker does on a run. `via` is the track a puller takes before he looks for his man. */
export interface RunJob {
  readonly on: DefenseSlot | null;
  readonly via: readonly Spot[];
  /** side towards which the block turns its man: kick-outs turn him out, down blocks in */
  readonly turn: SideSign;
  readonly pulls: boolean;
}

export interface RunPlan {
  readonly jobs: ReadonlyMap<OffenseSlot, RunJob>;
  /** the carrier's track up to where he picks his own way */
  readonly track: readonly Spot[];
  /** corner of the track at which he takes the ball */
  readonly mesh: Spot;
  /** seconds after the snap before the carrier starts */
  readonly waitSeconds: number;
}

interface RunLook {
  readonly concept: RunConcept;
  readonly to: SideSign;
  readonly ball: number;
  readonly offense: ReadonlyMap<OffenseSlot, Spot>;
  readonly defense: ReadonlyMap<DefenseSlot, Spot>;
  readonly underCenter: boolean;
}

const FRONT_FOUR: readonly DefenseSlot[] = ['DEL', 'DTL', 'DTR', 'DER'];

export function planRun(look: RunLook): RunPlan {
  const jobs = look.concept === 'inside zone' ? zoneJobs(look) : gapJobs(look);
  stalk(look, jobs);
  return { jobs, ...trackOf(look) };
}

function sideOf(look: RunLook, at: Spot): number {
  return (at.across - look.ball) * look.to;
}

/** Linemen from the side the run goes to, to the back side. */
function lineFromPlayside(look: RunLook): OffenseSlot[] {
  return look.to === 1 ? [...LINE_SLOTS].reverse() : [...LINE_SLOTS];
}

function boxLinebackers(look: RunLook): DefenseSlot[] {
  const free: DefenseSlot[] = ['M', 'W', 'N'];
  return free.filter((slot) => {
    const at = look.defense.get(slot)!;
    return Math.abs(at.across - look.ball) < 6.5 && at.downfield < 6;
  });
}

/** Everyone steps to the play side and takes the man there; who finds none climbs to a linebacker. */
function zoneJobs(look: RunLook): Map<OffenseSlot, RunJob> {
  const jobs = new Map<OffenseSlot, RunJob>();
  const taken = new Set<DefenseSlot>();
  const away = (look.to === 1 ? -1 : 1) as SideSign;
  const blockers = [...tightEnds(look, look.to), ...lineFromPlayside(look)];
  for (const slot of blockers) {
    const from = look.offense.get(slot)!;
    const found = FRONT_FOUR.filter((d) => !taken.has(d))
      .map((d) => ({ d, ahead: (look.defense.get(d)!.across - from.across) * look.to }))
      .filter(({ ahead }) => ahead > -1.1 && ahead < 2)
      .sort((a, b) => b.ahead - a.ahead)[0];
    if (found) {
      taken.add(found.d);
      jobs.set(slot, { on: found.d, via: [], turn: found.ahead > 0.6 ? look.to : away, pulls: false });
    }
  }
  climb(look, jobs, blockers);
  for (const slot of tightEnds(look, away)) {
    const end = look.to === 1 ? 'DEL' : 'DER';
    if (!taken.has(end)) jobs.set(slot, { on: end, via: [], turn: away, pulls: false });
  }
  if (look.offense.has('B')) {
    const open = boxLinebackers(look).find((d) => ![...jobs.values()].some((j) => j.on === d));
    if (open) jobs.set('B', { on: open, via: [], turn: look.to, pulls: false });
  }
  return jobs;
}

function climb(look: RunLook, jobs: Map<OffenseSlot, RunJob>, blockers: readonly OffenseSlot[]): void {
  const backers = boxLinebackers(look).sort(
    (a, b) => sideOf(look, look.defense.get(b)!) - sideOf(look, look.defense.get(a)!),
  );
  const idle = blockers.filter((slot) => !jobs.has(slot));
  for (const slot of idle) {
    const from = look.offense.get(slot)!;
    const nearest = backers
      .map((d) => ({ d, far: Math.abs(look.defense.get(d)!.across - from.across - look.to) }))
      .sort((a, b) => a.far - b.far)[0];
    if (!nearest || nearest.far > 4) {
      const help = FRONT_FOUR.map((d) => ({
        d,
        far: Math.abs(look.defense.get(d)!.across - from.across),
      })).sort((a, b) => a.far - b.far)[0]!;
      jobs.set(slot, { on: help.d, via: [], turn: look.to, pulls: false });
      continue;
    }
    backers.splice(backers.indexOf(nearest.d), 1);
    jobs.set(slot, { on: nearest.d, via: [], turn: (look.to === 1 ? -1 : 1) as SideSign, pulls: false });
  }
}

function tightEnds(look: RunLook, side: SideSign): OffenseSlot[] {
  return (['Y', 'U'] as const).filter((slot) => {
    const at = look.offense.get(slot);
    return at !== undefined && (at.across - look.ball) * side > 3.2 && Math.abs(at.across - look.ball) < 6.5;
  });
}

/**
 * Power: down blocks on the play side, the fullback or wing kicks out the end, the backside guard pulls and wraps to
 * the linebacker. Counter: the backside guard pulls and kicks out, the backside tackle pulls behind him and wraps.
 */
function gapJobs(look: RunLook): Map<OffenseSlot, RunJob> {
  const { to, ball } = look;
  const away = (to === 1 ? -1 : 1) as SideSign;
  const jobs = new Map<OffenseSlot, RunJob>();
  const line = lineFromPlayside(look);
  const [tackle, guard, center, backGuard, backTackle] = line as [
    OffenseSlot,
    OffenseSlot,
    OffenseSlot,
    OffenseSlot,
    OffenseSlot,
  ];
  const front = FRONT_FOUR.slice().sort(
    (a, b) => sideOf(look, look.defense.get(b)!) - sideOf(look, look.defense.get(a)!),
  );
  const [end, ...inside] = front as [DefenseSlot, DefenseSlot, DefenseSlot, DefenseSlot];
  const backers = boxLinebackers(look).sort(
    (a, b) => sideOf(look, look.defense.get(b)!) - sideOf(look, look.defense.get(a)!),
  );
  const block = (slot: OffenseSlot, on: DefenseSlot | null, turn: SideSign, via: readonly Spot[] = []) =>
    jobs.set(slot, { on, via, turn, pulls: via.length > 0 });

  const [kickTrack, wrapTrack] = [
    [spot(ball + to * 0.2, -2), spot(ball + to * 3.4, -1.2)],
    [spot(ball + to * 0.2, -2.6), spot(ball + to * 2.9, -1.6), spot(ball + to * 3.1, 1)],
  ];
  const wrapMan = backers[0] ?? null;
  const rest = backers.slice(1);
  if (look.concept === 'power') {
    const kicker = (['B', 'U', 'Y'] as const).find(
      (slot) => look.offense.has(slot) && slot !== undefined && canKick(look, slot),
    );
    if (kicker) block(kicker, end, to);
    block(backGuard, wrapMan, away, wrapTrack);
  } else {
    block(backGuard, end, to, kickTrack);
    block(backTackle, wrapMan, away, wrapTrack);
  }
  const down = [tackle, guard, center].filter((slot) => !jobs.has(slot));
  // Each down blocker takes the nearest man inside him; one with nobody left climbs to the next linebacker.
  const open = inside.slice();
  for (const slot of down) {
    const from = look.offense.get(slot)!;
    const man = open.find((d) => sideOf(look, look.defense.get(d)!) < sideOf(look, from) + 0.9);
    const last = slot === center;
    if (man && (last || sideOf(look, from) - sideOf(look, look.defense.get(man)!) < 2.6)) {
      open.splice(open.indexOf(man), 1);
      block(slot, man, away);
    } else block(slot, rest.shift() ?? inside[0] ?? null, away);
  }
  for (const slot of tightEnds(look, to)) if (!jobs.has(slot)) block(slot, rest.shift() ?? inside[0]!, away);
  if (!jobs.has(backTackle)) block(backTackle, open.at(-1) ?? front.at(-1)!, away);
  for (const slot of tightEnds(look, away)) if (!jobs.has(slot)) block(slot, front.at(-1)!, away);
  const fill = look.offense.has('B') && !jobs.has('B') ? (open[0] ?? front.at(-1)!) : null;
  if (fill) block('B', fill, away);
  return jobs;
}

function canKick(look: RunLook, slot: OffenseSlot): boolean {
  if (slot === 'B') return true;
  return slot === 'U' ? false : tightEnds(look, look.to).includes(slot);
}

/** Receivers block the man across from them. */
function stalk(look: RunLook, jobs: Map<OffenseSlot, RunJob>): void {
  const taken = new Set([...jobs.values()].map((j) => j.on));
  for (const slot of ['X', 'Z', 'H', 'Y', 'U'] as const) {
    const from = look.offense.get(slot);
    if (!from || jobs.has(slot)) continue;
    const man = (['CL', 'CR', 'N', 'W', 'SS', 'FS'] as const)
      .filter((d) => !taken.has(d))
      .map((d) => ({
        d,
        far: Math.hypot(
          look.defense.get(d)!.across - from.across,
          look.defense.get(d)!.downfield - from.downfield,
        ),
      }))
      .sort((a, b) => a.far - b.far)[0];
    if (!man) continue;
    taken.add(man.d);
    jobs.set(slot, { on: man.d, via: [], turn: from.across < look.ball ? -1 : 1, pulls: false });
  }
}

function trackOf(look: RunLook): Pick<RunPlan, 'track' | 'mesh' | 'waitSeconds'> {
  const { to, ball, concept, underCenter } = look;
  const start = look.offense.get('F')!;
  const passer = look.offense.get('QB')!;
  const deep = start.downfield < -6.4;
  const mesh = underCenter
    ? spot(ball + to * 0.9, -4.6)
    : deep
      ? spot(ball + to * 0.7, passer.downfield - 0.6)
      : spot(ball + to * 0.5, passer.downfield + 0.3);
  const aim = { 'inside zone': 1.9, power: 3.2, counter: 3.4 }[concept];
  const hole = spot(ball + to * aim, -0.6);
  const track =
    concept === 'counter'
      ? [start, spot(start.across - to * 0.9, start.downfield + 0.3), mesh, hole]
      : [start, mesh, hole];
  return { track, mesh, waitSeconds: deep ? 0.25 : concept === 'counter' ? 0.25 : 0.35 };
}
