import { radians } from '../../diamond/bearing.ts';
import { type BallPath, type Launch, STEP_S } from './ball-path.ts';
import { bounce } from './bounce.ts';
import { fenceFt, groundAt } from './ground.ts';

const STEP = STEP_S;
const FT_S_PER_MPH = 5280 / 3600;
const GRAVITY_FT_S2 = 32.174;
/** Half the air's density times the ball's cross-section over its mass, a foot; mass and radius from Nathan 2008. */
const AIR_PER_FT = 0.00526;
const DRAG = 0.35;
const CONTACT_HEIGHT_FT = 2.6;
/** Below this downward speed the ball no longer hops. */
const ROLL_BELOW_FT_S = 3.2;
const STOPPED_FT_S = 1;
const FENCE_HEIGHT_FT = 9;
const FENCE_SPRING = 0.3;

/** Velocity of the ball under way, ft/s; one per module, since only one ball is traced at a time. */
const velocity = { x: 0, y: 0, z: 0 };

/** Moves a ball from the bat in time steps until it lies still, under gravity, drag, spin, bounces and roll. */
export function traceBall(launch: Launch, path: BallPath): void {
  const speed = launch.exitSpeedMph * FT_S_PER_MPH;
  const up = radians(launch.launchAngleDeg);
  const bearing = radians(launch.bearingDeg);
  velocity.x = speed * Math.cos(up) * Math.sin(bearing);
  velocity.y = speed * Math.cos(up) * Math.cos(bearing);
  velocity.z = speed * Math.sin(up);
  const lift = Math.min(0.2, Math.max(-0.08, 0.008 * launch.launchAngleDeg));
  path.startS = 0;
  follow(path, 0, 0, CONTACT_HEIGHT_FT, lift, launch.surface, launch.kickDeg, launch.hop);
}

/** Moves a ball that a defender knocked off its way at a spot on the ground, with a new velocity in the plane, ft/s. */
export function traceDeflected(
  path: BallPath,
  startS: number,
  xFt: number,
  yFt: number,
  vx: number,
  vy: number,
  surface: number,
): void {
  velocity.x = vx;
  velocity.y = vy;
  velocity.z = 6;
  path.startS = startS;
  follow(path, xFt, yFt, 1, 0, surface, 0, 1);
}

function follow(
  path: BallPath,
  x0: number,
  y0: number,
  z0: number,
  lift: number,
  surface: number,
  kickDeg: number,
  hop: number,
): void {
  const { x: xs, y: ys, z: zs, speed: speeds } = path;
  let [x, y, z] = [x0, y0, z0];
  let rolling = false;
  let landed = false;
  let i = 0;
  path.landing = xs.length - 1;
  path.gone = false;
  for (; i < xs.length; i += 1) {
    const v = Math.sqrt(velocity.x * velocity.x + velocity.y * velocity.y + velocity.z * velocity.z);
    xs[i] = x;
    ys[i] = y;
    zs[i] = z;
    speeds[i] = v;
    if (rolling) {
      if (v < STOPPED_FT_S) break;
      const keep = Math.max(0, 1 - (groundAt(x, y, surface).rollFtS2 * STEP) / v);
      velocity.x *= keep;
      velocity.y *= keep;
    } else {
      fly(v, landed ? 0 : lift);
    }
    x += velocity.x * STEP;
    y += velocity.y * STEP;
    z += velocity.z * STEP;
    if (z <= 0 && !rolling) {
      z = 0;
      if (!landed) {
        landed = true;
        path.landing = i + 1;
        turn(radians(kickDeg));
      }
      if (-velocity.z < ROLL_BELOW_FT_S) {
        rolling = true;
        velocity.z = 0;
      } else {
        bounce(velocity, groundAt(x, y, surface), hop);
      }
    }
    const fence = fenceFt(x, y);
    if (x * x + y * y > fence * fence && y > 0) {
      if (!landed && z > FENCE_HEIGHT_FT) path.gone = true;
      velocity.x *= -FENCE_SPRING;
      velocity.y *= -FENCE_SPRING;
      x = xs[i]!;
      y = ys[i]!;
    }
  }
  path.steps = Math.min(i + 1, xs.length);
}

/** One step of gravity, drag against the way, and lift across it within the vertical plane. */
function fly(v: number, lift: number): void {
  const { x, y, z } = velocity;
  const flat = Math.sqrt(x * x + y * y) || 1;
  const drag = AIR_PER_FT * DRAG * v;
  const across = (AIR_PER_FT * lift * v * z) / flat;
  velocity.x -= (drag + across) * x * STEP;
  velocity.y -= (drag + across) * y * STEP;
  velocity.z += (AIR_PER_FT * lift * v * flat - drag * z - GRAVITY_FT_S2) * STEP;
}

function turn(angle: number): void {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const { x, y } = velocity;
  velocity.x = c * x + s * y;
  velocity.y = c * y - s * x;
}
