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

/** Return whether a point of the plan lies in a room. */
export function holds({ outline }, [x, y]) {
  let hits = 0;
  outline.forEach(([x1, y1], n) => {
    const [x2, y2] = outline[(n + 1) % outline.length];
    if ((y1 > y) !== (y2 > y) && x < x1 + ((y - y1) * (x2 - x1)) / (y2 - y1)) hits += 1;
  });
  return hits % 2 === 1;
}
