// Small pictures of what is measured: the thing in thin lines, the measure in the color of dimensions.

import { draw } from "./make.js";

const thing = (d, kind = "line") => draw("path", { class: kind, d });
const text = (x, y, said) => draw("text", { class: "small", x, y, "text-anchor": "middle" }, said);

/** A dimension between two points, with its ticks; level or plumb. */
function dimension(x1, y1, x2, y2) {
  const [tx, ty] = x1 === x2 ? [4, 0] : [0, 4];
  return thing(`M${x1} ${y1}L${x2} ${y2}M${x1 - tx} ${y1 - ty}L${x1 + tx} ${y1 + ty}M${x2 - tx} ${y2 - ty}L${x2 + tx} ${y2 + ty}`, "measure");
}

const GROUND = "M4 92H156";
const HATCH = "M10 92l-6 6M30 92l-6 6M50 92l-6 6M70 92l-6 6M90 92l-6 6M110 92l-6 6M130 92l-6 6M150 92l-6 6";
const WINDOW = "M52 16h56v44h-56zM57 21h46v34H57z";

const DRAWN = {
  sill: () => [thing(`${GROUND}${WINDOW}`), dimension(80, 55, 80, 92), text(24, 88, "floor")],
  grade: () => [thing(`${GROUND}${HATCH}${WINDOW}`), dimension(80, 55, 80, 92), text(132, 86, "ground")],
  clear: () => [thing("M36 10h88v80H36zM42 16h76v68H42zM42 50h76"), dimension(44, 68, 116, 68), dimension(80, 52, 80, 83)],
  glass: () => [thing("M36 10h88v80H36z"), thing("M44 18h72v64H44zM56 60l18-22M66 66l22-26", "line thin"), text(80, 74, "glass")],
  opening: () => [thing("M50 20h60v72M50 20v72M4 92h152"), dimension(50, 12, 110, 12), dimension(122, 20, 122, 92)],
  ceiling: () => [thing("M10 8H150M10 92H150M10 8V92M150 8V92"), dimension(80, 8, 80, 92)],
  level: () => [thing("M6 40H70V52H6zM70 66H154V76H70z"), dimension(84, 40, 84, 66), thing("M70 40H92", "line dashed"), text(36, 32, "house"), text(124, 60, "this floor")],
  receptacle: () => [thing("M4 92H156M60 50h14v22H60zM65 56v4M69 56v4"), dimension(88, 61, 88, 92), dimension(74, 84, 150, 84)],
  slab: () => [thing(`M20 40H150V64H20z`), thing("M30 64l-8 10M60 64l-8 10M90 64l-8 10M120 64l-8 10M150 64l-8 10", "line thin"), dimension(86, 40, 86, 64)],
  "slab edge": () => [thing("M40 30H150V46H60V88H40z"), thing("M32 30h8v58h-8z", "line dashed"), dimension(22, 30, 22, 88)],
  footing: () => [thing("M4 24H66M94 24H156M66 8h28v56H66zM44 64h72v22H44z"), dimension(44, 95, 116, 95), dimension(136, 24, 136, 86), dimension(30, 64, 30, 86)],
  span: () => [thing("M14 30H146V44H14zM14 44h16v44H14zM130 44h16v44h-16z"), dimension(30, 60, 130, 60)],
  stair: () => [thing("M10 92h26V72h26V52h26V32h26V12h40"), dimension(140, 12, 140, 92), dimension(36, 84, 62, 84)],
  headroom: () => [thing("M10 92h26V76h26V60h26V44h26V28h40M10 8H100V16"), thing("M10 92L130 19", "line dashed"), dimension(62, 8, 62, 60)],
  drop: () => [thing("M6 30H90V40H6zM4 92H156"), dimension(104, 30, 104, 92), thing("M90 30H112", "line dashed")],
  fixture: () => [thing("M10 6V96M10 6H150M66 6h28v16H66zM68 22h24v26q-12 12-24 0z"), dimension(10, 40, 80, 40), dimension(80, 54, 80, 92)],
};

/** Return the picture of that name, for the eye alone: the words beside it say the same. */
export function picture(name) {
  const drawn = DRAWN[name];
  return drawn ? draw("svg", { class: "picture", viewBox: "0 0 160 100", width: 160, height: 100, "aria-hidden": "true" }, ...drawn()) : null;
}
