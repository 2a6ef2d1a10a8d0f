import { type Canvas, createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import { type Angle, type Camera, cameraFor, type Framing, type Picture, projector } from '../camera.ts';
import { FIELD, lineOfScrimmageX, toWorld } from '../field.ts';
import { type PlaySimulation, shotAt } from '../simulation.ts';
import { COLORS } from './colors.ts';
import { drawFigure, drawShadow, type Figure } from './figures.ts';
import { drawGround, drawPosts, type Project } from './ground.ts';

/** What stands on the far sideline: the down box at the ball and the stake at the line to gain. */
export interface Markers {
  readonly down: number;
  readonly distance: number;
}

export interface Scene {
  readonly play: PlaySimulation;
  readonly angle: Angle;
  readonly picture: Picture;
  readonly markers: Markers | null;
  readonly framingAt: (tick: number) => Framing;
}

/** Draws frames of one film; keeps the painted ground as long as the camera does not move. */
export function painter(scene: Scene): (tick: number) => Canvas {
  const { width, height } = scene.picture;
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const ground = createCanvas(width, height);
  let groundOf = '';
  return (tick) => {
    const framing = scene.framingAt(tick);
    const camera = cameraFor(scene.angle, scene.play.place, framing, scene.picture);
    const project = projector(camera);
    const key = JSON.stringify(framing);
    if (key !== groundOf) {
      const under = ground.getContext('2d');
      drawGround(under, project, width, height);
      if (scene.markers) drawMarkers(under, project, scene);
      groundOf = key;
    }
    context.drawImage(ground, 0, 0);
    drawPeople(context, project, camera, scene.play, tick);
    drawPosts(context, project);
    return canvas;
  };
}

function drawPeople(
  context: SKRSContext2D,
  project: Project,
  camera: Camera,
  play: PlaySimulation,
  tick: number,
): void {
  const shot = shotAt(play, tick);
  const view = Math.atan2(camera.lookAt.y - camera.eye.y, camera.lookAt.x - camera.eye.x);
  const figures: Figure[] = play.cast.map((member) => {
    const person = shot.people.get(member.slot)!;
    const world = toWorld(play.place, person.at);
    // In the stadium, downfield is along x and the offense's right is towards minus y, both turned with the drive.
    const heading = Math.atan2(
      -Math.sin(person.facing) * play.place.direction,
      Math.cos(person.facing) * play.place.direction,
    );
    return { member, shot: person, world, screenFacing: heading - view + Math.PI / 2, tick: shot.tick };
  });
  const depth = new Map(figures.map((f) => [f, project(f.world).depth]));
  figures.sort((a, b) => depth.get(b)! - depth.get(a)!);
  for (const figure of figures) drawShadow(context, project, figure);
  const ballWorld = toWorld(play.place, shot.ball.at, shot.ball.height);
  const ball = project(ballWorld);
  let drawn = false;
  const draw = () => {
    drawn = true;
    if (shot.ball.heldBy === null && shot.ball.height > 0.4) {
      const below = project({ ...ballWorld, z: 0 });
      context.fillStyle = COLORS.shadow;
      context.beginPath();
      context.ellipse(
        below.x,
        below.y,
        0.3 * below.pixelsPerYard,
        0.14 * below.pixelsPerYard,
        0,
        0,
        Math.PI * 2,
      );
      context.fill();
    }
    drawBall(context, ball.x, ball.y, ball.pixelsPerYard * (shot.ball.heldBy === null ? 0.3 : 0.24));
  };
  for (const figure of figures) {
    if (!drawn && depth.get(figure)! < ball.depth - 0.4) draw();
    drawFigure(context, project, figure);
  }
  if (!drawn) draw();
}

function drawBall(context: SKRSContext2D, x: number, y: number, radius: number): void {
  context.fillStyle = COLORS.ballEdge;
  context.beginPath();
  context.ellipse(x, y, radius * 1.45, radius * 1.05, -0.4, 0, Math.PI * 2);
  context.fill();
  context.fillStyle = COLORS.ball;
  context.beginPath();
  context.ellipse(x, y, radius * 1.1, radius * 0.72, -0.4, 0, Math.PI * 2);
  context.fill();
}

function drawMarkers(context: SKRSContext2D, project: Project, scene: Scene): void {
  const { play, markers } = scene;
  if (!markers) return;
  const y = FIELD.widthYards + 1.1;
  const ballX = lineOfScrimmageX(play.place);
  const gainX = ballX + play.place.direction * markers.distance;
  const pole = (x: number, top: number) => {
    const foot = project({ x, y, z: 0 });
    const head = project({ x, y, z: top });
    context.strokeStyle = COLORS.marker;
    context.lineWidth = Math.max(1.5, 0.14 * foot.pixelsPerYard);
    context.beginPath();
    context.moveTo(foot.x, foot.y);
    context.lineTo(head.x, head.y);
    context.stroke();
    return head;
  };
  const goalToGo = markers.distance >= play.place.yardsToGoal;
  if (!goalToGo) {
    const head = pole(gainX, 2.4);
    const r = 0.55 * head.pixelsPerYard;
    context.fillStyle = COLORS.marker;
    context.beginPath();
    context.moveTo(head.x - r, head.y - r);
    context.lineTo(head.x + r, head.y - r);
    context.lineTo(head.x, head.y + r);
    context.closePath();
    context.fill();
  }
  const head = pole(ballX, 2.4);
  const size = 1.5 * head.pixelsPerYard;
  context.fillStyle = '#111111';
  context.fillRect(head.x - size / 2, head.y - size, size, size);
  context.strokeStyle = COLORS.marker;
  context.lineWidth = Math.max(1, size * 0.1);
  context.strokeRect(head.x - size / 2, head.y - size, size, size);
  context.fillStyle = '#ffffff';
  context.font = `bold ${Math.round(size * 0.9)}px "DejaVu Sans", Arial, sans-serif`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.fillText(`${markers.down}`, head.x, head.y - size * 0.47);
}
