/** The board as plain numbers: scale, snapping to rails, what lies on what. No page here. */
import type { Rows } from "../api";

export type Panel = Rows["ShownPanelRow"];
export type Hung = Rows["HungRow"];
export type Rail = Rows["ShownRailRow"];
/** x0, x1, z0, z1 in mm. */
export type Box = readonly [number, number, number, number];

export interface Spot {
  x: number;
  z: number;
}

const TOUCH_MM = 0.05;

/** The room of a thing when it hangs somewhere else. */
export function boxAt(one: Hung, spot: Spot): Box {
  const [x0, x1, z0, z1] = one.box_mm as unknown as Box;
  const dx = spot.x - one.x_mm;
  const dz = spot.z - one.z_mm;
  return [x0 + dx, x1 + dx, z0 + dz, z1 + dz];
}

export function overlap(a: Box, b: Box): Box | null {
  const x0 = Math.max(a[0], b[0]);
  const x1 = Math.min(a[1], b[1]);
  const z0 = Math.max(a[2], b[2]);
  const z1 = Math.min(a[3], b[3]);
  return x1 - x0 > TOUCH_MM && z1 - z0 > TOUCH_MM ? [x0, x1, z0, z1] : null;
}

export interface Clash {
  with: string;
  box: Box;
}

/** What a thing would lie on; a look ahead, the program has the last word. */
export function clashes(panel: Panel, one: Hung, spot: Spot): Clash[] {
  const here = boxAt(one, spot);
  const found: Clash[] = [];
  for (const other of panel.hung) {
    if (other.key === one.key) continue;
    const box = overlap(here, other.box_mm as unknown as Box);
    if (box) found.push({ with: other.name, box });
  }
  for (const obstacle of panel.obstacles) {
    const box = overlap(here, obstacle.clear_mm as unknown as Box);
    if (box) found.push({ with: obstacle.name, box });
  }
  const wall: Box = [0, panel.width_mm, 0, panel.height_mm];
  if (here[0] < wall[0] - TOUCH_MM || here[1] > wall[1] + TOUCH_MM || here[2] < wall[2] - TOUCH_MM || here[3] > wall[3] + TOUCH_MM) {
    found.push({ with: "the edge of the wall", box: here });
  }
  return found;
}

/** The nearest whole number of steps. */
export function whole(mm: number, step_mm: number): number {
  return Math.round(mm / step_mm) * step_mm;
}

/** The nearest spot on a rail, or where it is for what hangs on the wall itself, in whole steps. */
export function snapped(panel: Panel, one: Hung, spot: Spot, reach_mm: number, step_mm: number): Spot {
  const x = whole(spot.x, step_mm);
  let z = whole(spot.z, step_mm);
  if (!one.on_rail) return { x, z };
  let nearest = reach_mm;
  for (const rail of panel.rails) {
    const off = Math.abs(rail.hang_z_mm - spot.z);
    if (off < nearest) {
      nearest = off;
      z = rail.hang_z_mm;
    }
  }
  return { x, z };
}

/** The next rail height above or below; null when there is none. */
export function otherRail(panel: Panel, z: number, up: boolean): number | null {
  const heights = panel.rails.map((rail) => rail.hang_z_mm).filter((at) => (up ? at > z + 1 : at < z - 1));
  if (!heights.length) return null;
  return up ? Math.min(...heights) : Math.max(...heights);
}

/** The gaps to the neighbours at the left and right, in mm, of those at about the same height. */
export function gaps(panel: Panel, one: Hung, spot: Spot): { left: number | null; right: number | null } {
  const here = boxAt(one, spot);
  let left: number | null = here[0];
  let right: number | null = panel.width_mm - here[1];
  for (const other of panel.hung) {
    if (other.key === one.key) continue;
    const [x0, x1, z0, z1] = other.box_mm as unknown as Box;
    if (z1 <= here[2] || z0 >= here[3]) continue;
    if (x1 <= here[0] + TOUCH_MM) left = Math.min(left, here[0] - x1);
    if (x0 >= here[1] - TOUCH_MM) right = Math.min(right, x0 - here[1]);
  }
  return { left: left < 0 ? null : left, right: right < 0 ? null : right };
}

const STEPS = { mm: [50, 100, 200, 250, 500, 1000, 2000, 5000], in: [2, 3, 6, 12, 24, 48, 96, 192].map((inches) => 25.4 * inches) };

/** So far apart the numbers of a ruler stand clear of each other, also the last, which stays on the drawing. */
const NUMBER_PX = 72;

/** Round steps for a ruler that shows about eight numbers, round in its unit, or as many as have room. */
export function ticks(width_mm: number, unit: "mm" | "in" = "mm", width_px = 9 * NUMBER_PX): number[] {
  const most = Math.max(1, Math.min(9, width_px / NUMBER_PX));
  const step = STEPS[unit].find((one) => width_mm / one <= most) ?? STEPS[unit].at(-1) ?? 1000;
  return Array.from({ length: Math.floor(width_mm / step + 1e-6) + 1 }, (_, at) => at * step);
}

/** Closed lines as a path, at so many pixels for each mm. */
export function pathOf(rings: readonly (readonly (readonly number[])[])[], scale: number, height_mm: number): string {
  return rings
    .map((ring) => `M${ring.map(([x = 0, z = 0]) => `${(x * scale).toFixed(1)} ${((height_mm - z) * scale).toFixed(1)}`).join("L")}Z`)
    .join("");
}

/** What stands in the balloon of a thing, and how far that reaches to each side, in pixels. */
export function balloonOf(one: { numbers: readonly number[] }, before = ""): { words: string; half: number } {
  const all = numbersOf(one);
  const words = before + (all.length <= MOST_IN_BALLOON ? all : `${one.numbers[0]} +${one.numbers.length - 1}`);
  return { words, half: Math.max(BALLOON - 2, 5 + words.length * 3.6) };
}

/** All its numbers, as they stand in a list. */
export function numbersOf(one: { numbers: readonly number[] }): string {
  const [first, ...rest] = one.numbers;
  const last = rest.at(-1);
  if (first === undefined || last === undefined) return `${first ?? ""}`;
  return last - first === rest.length ? `${first}-${last}` : one.numbers.join(", ");
}

/** How far a balloon is moved to keep off others, by nearness: steps of about half a balloon. */
const STEP = 13;
/** A balloon may reach so far over the left and right edge of the wall. */
const EDGE = 2;
const FAR = 25;
const ACROSS = 2 * FAR + 1;
const AROUND = Array.from({ length: ACROSS * ACROSS }, (_, n) => ({ dx: ((n % ACROSS) - FAR) * STEP, dy: (Math.floor(n / ACROSS) - FAR) * STEP })).sort(
  (a, b) => Math.hypot(a.dx, a.dy) - Math.hypot(b.dx, b.dy) || b.dy - a.dy || a.dx - b.dx,
);

/**
 * Where balloons stand so that none lies on another: in their own middle, else as near to it as there is room.
 *
 * @param middles middle of each balloon in pixels, and how far it reaches to each side
 * @param size how wide and high the drawing is
 * @param tall how high a balloon is
 * @param taken where other words stand: left, right, top and bottom
 */
export function spread(
  middles: readonly { x: number; y: number; half: number }[],
  size: { width: number; height: number },
  tall = 24,
  taken: readonly Box[] = [],
): { x: number; y: number }[] {
  const boxes: Box[] = [...taken];
  const boxOf = (x: number, y: number, half: number): Box => [x - half, x + half, y - tall / 2, y + tall / 2];
  const inside = (box: Box) => box[0] >= -EDGE && box[1] <= size.width + EDGE && box[2] >= 0 && box[3] <= size.height;
  return middles.map(({ x, y: middle, half }) => {
    // what hangs lowest has its balloon within the drawing too
    const y = Math.min(middle, Math.max(0, size.height - tall / 2));
    const free = AROUND.find(({ dx, dy }) => {
      const box = boxOf(x + dx, y + dy, half);
      return ((!dx && !dy) || inside(box)) && boxes.every((other) => !overlap(box, other));
    });
    const at = { x: x + (free?.dx ?? 0), y: y + (free?.dy ?? 0) };
    boxes.push(boxOf(at.x, at.y, half));
    return at;
  });
}

export interface Label {
  /** Middle of the words and their base line, in pixels. */
  x: number;
  y: number;
  words: string;
}

const LETTER = 6.3;
/** So many letters of a name stand on the drawing; all of them stand in the list beside it. */
const LONGEST = 26;
const BALLOON = 14;
const MOST_IN_BALLOON = 6;

/**
 * The names for which there is room under their balloons without lying on another balloon or name.
 *
 * @param middles middle of each balloon, in pixels, in the order in which names are tried
 * @param width how far the drawing reaches to the right
 * @param chosen the key of what has its name whatever lies there; the others keep off it
 */
export function labels(
  middles: readonly { key: string; x: number; y: number; words: string; half?: number }[],
  width: number,
  chosen: string | null = null,
): Map<string, Label> {
  const boxes: Box[] = middles.map(({ x, y, half = BALLOON }) => [x - half, x + half, y - BALLOON, y + BALLOON]);
  const found = new Map<string, Label>();
  const order = middles.map((one, own) => ({ ...one, own })).sort((a, b) => Number(b.key === chosen) - Number(a.key === chosen));
  order.forEach(({ key, x, y, words: whole, own }) => {
    const words = whole.length > LONGEST ? `${whole.slice(0, LONGEST - 1).trimEnd()}…` : whole;
    const half = (words.length * LETTER) / 2;
    const at = Math.min(Math.max(x, half + 2), width - half - 2);
    if (Math.abs(at - x) > half && key !== chosen) return;
    const box: Box = [at - half, at + half, y + 15, y + 30];
    if (key !== chosen && boxes.some((other, n) => n !== own && overlap(box, other))) return;
    boxes.push(box);
    found.set(key, { x: at, y: y + 27, words });
  });
  return found;
}
