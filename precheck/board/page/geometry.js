// What the plan works out from outlines, in inches of house. The board works out what goes into the file.

import { feet } from "./make.js";

export const wallsOf = (room) => room.outline.map((start, n) => [start, room.outline[(n + 1) % room.outline.length]]);

/** Return 1 for an outline whose corners run against the clock, -1 for one with it. */
const turnOf = (room) => (wallsOf(room).reduce((sum, [[ax, ay], [bx, by]]) => sum + ax * by - bx * ay, 0) > 0 ? 1 : -1);

/** Return the direction out of a room through a wall, as a vector of any length. */
export function outward(room, wall) {
  const [[ax, ay], [bx, by]] = wallsOf(room)[wall];
  return [(by - ay) * turnOf(room), (ax - bx) * turnOf(room)];
}

/** Return what a wall is called: by the way it faces. */
export function sideOf(room, wall) {
  const [x, y] = outward(room, wall);
  if (x && y) return "slanted";
  return Math.abs(x) > Math.abs(y) ? (x > 0 ? "east" : "west") : y > 0 ? "north" : "south";
}

export const lengthOf = ([[ax, ay], [bx, by]]) => Math.hypot(bx - ax, by - ay);
export const wallName = (room, wall) => `${sideOf(room, wall)} wall, ${feet(lengthOf(wallsOf(room)[wall]))}`;

/** Return what the end of a wall is called from which a distance runs: its start, or its other end. */
export function endName(room, wall, far) {
  const [a, b] = wallsOf(room)[wall];
  const [dx, dy] = far ? [b[0] - a[0], b[1] - a[1]] : [a[0] - b[0], a[1] - b[1]];
  if (dx && dy) return far ? "other" : "first";
  return dx ? (dx > 0 ? "east" : "west") : dy > 0 ? "north" : "south";
}

export function holds({ outline }, [x, y]) {
  let hits = 0;
  outline.forEach(([x1, y1], n) => {
    const [x2, y2] = outline[(n + 1) % outline.length];
    if ((y1 > y) !== (y2 > y) && x < x1 + ((y - y1) * (x2 - x1)) / (y2 - y1)) hits += 1;
  });
  return hits % 2 === 1;
}
