import type { SKRSContext2D } from '@napi-rs/canvas';
import type { WorldPoint } from '../field.ts';
import type { CastMember } from '../simulation.ts';
import type { PersonShot } from '../world.ts';
import { COLORS, KITS } from './colors.ts';
import type { Project } from './ground.ts';

/** Figures are drawn a little larger than life, so that numbers can be read on a small picture. */
const SIZE = 1.18;

/** yards above the ground of the middle of a standing player's jersey; the tests look for his colour there */
export const JERSEY_HEIGHT_YARDS = 1.22 * SIZE;

export interface Figure {
  readonly member: CastMember;
  readonly shot: PersonShot;
  readonly world: WorldPoint;
  /** radians of his facing on the screen: 0 is to the right, a quarter turn is away from the camera */
  readonly screenFacing: number;
  readonly tick: number;
}

export function drawShadow(context: SKRSContext2D, project: Project, figure: Figure): void {
  const foot = project(figure.world);
  const s = foot.pixelsPerYard * SIZE;
  const lying = figure.shot.posture === 'down';
  context.fillStyle = COLORS.shadow;
  context.beginPath();
  context.ellipse(foot.x + 0.16 * s, foot.y, (lying ? 0.95 : 0.5) * s, 0.2 * s, 0, 0, Math.PI * 2);
  context.fill();
}

export function drawFigure(context: SKRSContext2D, project: Project, figure: Figure): void {
  const { shot, member } = figure;
  const kit = KITS[member.team];
  const foot = project(figure.world);
  const s = foot.pixelsPerYard * SIZE;
  const { x, y } = foot;
  if (shot.posture === 'down') {
    capsule(context, x - 0.75 * s, y - 0.16 * s, x - 0.1 * s, y - 0.18 * s, 0.2 * s, kit.pants);
    capsule(context, x - 0.05 * s, y - 0.2 * s, x + 0.42 * s, y - 0.22 * s, 0.3 * s, kit.jersey);
    disc(context, x + 0.72 * s, y - 0.2 * s, 0.19 * s, kit.helmet);
    return;
  }
  const sideways = Math.cos(figure.screenFacing);
  const set = shot.posture === 'set';
  const hip = (set ? 0.62 : 0.85) * s;
  const lean = sideways * (set ? 0.5 : Math.min(0.28, shot.speed * 0.035)) * s;
  const phase = Math.sin(figure.tick * 0.62 + member.number);
  const swing = Math.min(1, shot.speed / 4) * phase;
  const stride = (0.14 + 0.3 * Math.abs(swing) * Math.abs(sideways)) * s;
  const lift = 0.18 * s * Math.abs(swing);
  capsule(
    context,
    x - lean * 0.1,
    y - hip,
    x - stride * Math.sign(swing || 1),
    y - Math.max(0, swing) * lift - 0.08 * s,
    0.13 * s,
    kit.pants,
  );
  capsule(
    context,
    x - lean * 0.1,
    y - hip,
    x + stride * Math.sign(swing || 1),
    y - Math.max(0, -swing) * lift - 0.08 * s,
    0.13 * s,
    kit.pants,
  );
  const shoulder = (set ? 0.98 : 1.48) * s;
  const width = (0.3 + 0.1 * Math.abs(Math.sin(figure.screenFacing))) * s;
  const arm = swing * 0.22 * s;
  capsule(
    context,
    x + lean + width,
    y - shoulder + 0.05 * s,
    x + lean + width + 0.06 * s + arm,
    y - shoulder + 0.52 * s,
    0.09 * s,
    COLORS.skin,
  );
  capsule(
    context,
    x + lean - width,
    y - shoulder + 0.05 * s,
    x + lean - width - 0.06 * s + arm,
    y - shoulder + 0.52 * s,
    0.09 * s,
    COLORS.skin,
  );
  torso(context, x, y - hip, x + lean, y - shoulder, width, kit.jersey);
  const headX = x + lean * 1.35 + sideways * 0.06 * s;
  const headY = y - shoulder - 0.2 * s;
  disc(context, headX, headY, 0.21 * s, kit.helmet);
  context.fillStyle = 'rgba(20, 20, 24, 0.75)';
  if (Math.sin(figure.screenFacing) < 0.5) {
    context.fillRect(headX + sideways * 0.12 * s - 0.07 * s, headY + 0.0 * s, 0.14 * s, 0.13 * s);
  }
  if (!set) {
    context.fillStyle = kit.numbers;
    context.font = `bold ${Math.max(6, 0.56 * s).toFixed(1)}px "DejaVu Sans", Arial, sans-serif`;
    context.textAlign = 'center';
    context.textBaseline = 'middle';
    context.fillText(`${member.number}`, x + lean * 0.55, y - (hip + shoulder) / 2 - 0.02 * s);
  }
}

function torso(
  context: SKRSContext2D,
  hipX: number,
  hipY: number,
  topX: number,
  topY: number,
  half: number,
  color: string,
): void {
  context.fillStyle = color;
  context.beginPath();
  context.moveTo(hipX - half * 0.72, hipY);
  context.lineTo(topX - half * 1.15, topY + half * 0.35);
  context.quadraticCurveTo(topX - half, topY - half * 0.15, topX, topY - half * 0.15);
  context.quadraticCurveTo(topX + half, topY - half * 0.15, topX + half * 1.15, topY + half * 0.35);
  context.lineTo(hipX + half * 0.72, hipY);
  context.closePath();
  context.fill();
}

function capsule(
  context: SKRSContext2D,
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  radius: number,
  color: string,
): void {
  context.strokeStyle = color;
  context.lineWidth = radius * 2;
  context.lineCap = 'round';
  context.beginPath();
  context.moveTo(x1, y1);
  context.lineTo(x2, y2);
  context.stroke();
}

function disc(context: SKRSContext2D, x: number, y: number, radius: number, color: string): void {
  context.fillStyle = color;
  context.beginPath();
  context.arc(x, y, radius, 0, Math.PI * 2);
  context.fill();
}
