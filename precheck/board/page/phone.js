// Where the board can be read on a phone, while it is shared: in large letters, as a code for its camera, and who sees what then.

import { by, make } from "./make.js";

let shown = "";

export function phone(share) {
  by("phone").hidden = !share?.address;
  if (!share?.address || shown === share.address) return;
  shown = share.address;
  by("phone").querySelector("div").replaceChildren(
    make("p", { class: "address" }, share.address),
    share.code ? make("img", { src: "share.svg", alt: "The same address, for the camera of a phone" }) : make("p", { class: "soft" }, "With pip install 'precheck[board]' there is a code here that the camera reads."),
    make("p", {}, share.exposed), make("p", {}, "To end it, end the board (Ctrl-C where it runs)."));
}
