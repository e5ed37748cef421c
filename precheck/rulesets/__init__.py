"""Editions, adoptions and amendments, folded along one chain into the table of limits in effect on a date.

An edition is a folder of topic files, each a mapping of limits. A jurisdiction is a folder with one file per adoption.
A jurisdiction adopts an edition or another jurisdiction's adoption; the date of application picks, at each step up the
chain, the adoption that was in force and the amendments that had taken effect.
"""

from precheck.rulesets.adopted import AdoptedCode, ChainLink
from precheck.rulesets.files import Adoption, Amendment, CheckBlock, ModelCode, RulesetCase, TopicFile, slug
from precheck.rulesets.library import Library
from precheck.rulesets.limit import CRITERIA
from precheck.rulesets.model_code import Unchecked
from precheck.rulesets.requirement import Requirement

__all__ = [
    "CRITERIA",
    "AdoptedCode",
    "Adoption",
    "Amendment",
    "ChainLink",
    "CheckBlock",
    "Library",
    "ModelCode",
    "Requirement",
    "RulesetCase",
    "TopicFile",
    "Unchecked",
    "slug",
]
