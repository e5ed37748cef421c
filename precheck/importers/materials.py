"""What materials of design files are called in a project: by the words in their names, a firm's own mapping first."""

from __future__ import annotations

import re

KNOWN: tuple[tuple[str, str], ...] = (
    ("plasterboard", "gypsum"), ("gypsum", "gypsum"), ("drywall", "gypsum"), ("gwb", "gypsum"),
    ("metal stud", "metal studs"), ("steel stud", "metal studs"), ("wood stud", "wood studs"),
    ("timber stud", "wood studs"), ("stud", "studs"),
    ("dimensional lumber", "lumber"), ("lumber", "lumber"), ("wood framing", "wood studs"),
    ("air space", "air space"),
    ("airspace", "air space"), ("air gap", "air space"),
    ("fiber cement", "fiber cement"), ("fibre cement", "fiber cement"), ("cement board", "cement board"),
    ("concrete block", "concrete block"), ("concrete masonry", "concrete block"), ("cmu", "concrete block"),
    ("brick", "brick"), ("concrete", "concrete"), ("stone", "stone"),
    ("semi rigid insulation", "insulation"), ("rigid insulation", "rigid insulation"),
    ("batt", "batt insulation"), ("insulation", "insulation"),
    ("mineral wool", "insulation"),
    ("plywood", "plywood"), ("oriented strand", "osb"), ("osb", "osb"),
    ("ceramic tile", "ceramic tile"), ("porcelain", "ceramic tile"), ("grout", "grout"), ("mortar", "mortar"),
    ("wood flooring", "wood flooring"), ("hardwood", "wood flooring"), ("carpet", "carpet"),
    ("stucco", "stucco"), ("vinyl siding", "vinyl siding"), ("wood siding", "wood siding"), ("plaster", "plaster"),
    ("epdm", "membrane"), ("membrane", "membrane"), ("asphalt shingle", "asphalt shingles"),
    ("standing seam", "standing seam metal"), ("slate", "slate"), ("wood shingle", "wood shingles"),
    ("roofing barrier", "underlayment"), ("vapor retarder", "vapor retarder"), ("vapour barrier", "vapor retarder"),
)  # fmt: skip
COVERINGS = {
    "asphalt shingles": "asphalt shingles", "membrane": "membrane", "standing seam metal": "standing seam metal",
    "slate": "slate", "wood shingles": "wood shingles",
}  # fmt: skip
CLADDINGS = {
    "wood siding": "wood siding", "fiber cement": "fiber cement", "vinyl siding": "vinyl", "stucco": "stucco",
    "brick": "masonry veneer", "stone": "masonry veneer",
}  # fmt: skip
_TYPE_X = re.compile(r"\btype[ -]?x\b")


def material(name: str, own: dict[str, str]) -> tuple[str, bool]:
    """Return what the material `name` is called in a project, and whether that is known rather than its own name."""
    lowered = " ".join(re.sub(r"[^\w]+", " ", name.lower()).split())
    said = own.get(name.lower()) or own.get(lowered)
    word = said or next((meant for known, meant in KNOWN if re.search(rf"\b{known}", lowered)), None)
    rated = "type x " if word == "gypsum" and _TYPE_X.search(name.lower()) else ""
    return (f"{rated}{word}", True) if word else (lowered or "layer", False)


__all__ = ["CLADDINGS", "COVERINGS", "material"]
