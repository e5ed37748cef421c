// The walls and corners of a room by the points of the compass, as one calls them on a plan whose top is north.

export const wallsOf = (room) => room.outline.map((start, n) => [start, room.outline[(n + 1) % room.outline.length]]);

const facing = (x, y) => [y < -0.01 ? "south" : y > 0.01 ? "north" : "", x < -0.01 ? "west" : x > 0.01 ? "east" : ""].join("");

/** Return the walls of a room in the order of its outline: what each is called, its length in inches, and its two corners. */
export function wallsNamed(room) {
  const turn = Math.sign(wallsOf(room).reduce((sum, [[ax, ay], [bx, by]]) => sum + ax * by - bx * ay, 0)) || 1;
  return wallsOf(room).map(([[ax, ay], [bx, by]]) => {
    const length = Math.hypot(bx - ax, by - ay) || 1;
    const [dx, dy] = [(bx - ax) / length, (by - ay) / length];
    return { side: facing(dy * turn, -dx * turn), length, corners: [facing(-dx, -dy), facing(dx, dy)] };
  });
}

/** Return the direction straight out of a room through a wall. */
export function outward(room, wall) {
  const turn = Math.sign(wallsOf(room).reduce((sum, [[ax, ay], [bx, by]]) => sum + ax * by - bx * ay, 0)) || 1;
  const [[ax, ay], [bx, by]] = wallsOf(room)[wall];
  const length = Math.hypot(bx - ax, by - ay) || 1;
  return [((by - ay) / length) * turn, ((ax - bx) / length) * turn];
}

/** Return the outline of a room with a wall, or a stretch of it from `from` to `to`, moved out by inches. */
export function pushed(room, wall, by, stretch) {
  const out = outward(room, wall).map((n) => n * by);
  const move = ([x, y]) => [x + out[0], y + out[1]];
  if (!stretch) return room.outline.map((point, n) => (n === wall || n === (wall + 1) % room.outline.length ? move(point) : point));
  const [[ax, ay], [bx, by_]] = wallsOf(room)[wall];
  const length = Math.hypot(bx - ax, by_ - ay) || 1;
  const [a, b] = stretch.map((at) => [ax + ((bx - ax) * at) / length, ay + ((by_ - ay) * at) / length]);
  return [...room.outline.slice(0, wall + 1), a, move(a), move(b), b, ...room.outline.slice(wall + 1)];
}

/** Return whether a point of the plan lies in a room. */
export function holds({ outline }, [x, y]) {
  let hits = 0;
  outline.forEach(([x1, y1], n) => {
    const [x2, y2] = outline[(n + 1) % outline.length];
    if ((y1 > y) !== (y2 > y) && x < x1 + ((y - y1) * (x2 - x1)) / (y2 - y1)) hits += 1;
  });
  return hits % 2 === 1;
}
