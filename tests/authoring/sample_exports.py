"""One work as other programs export it, in the formats' real shape. The record is that of `maeo2021` in references.bib."""

from __future__ import annotations

DOI = "10.1249/MSS.0000000000002523"
TITLE = (
    "Greater Hamstrings Muscle Hypertrophy but Similar Damage Protection after Training at Long "
    "versus Short Muscle Lengths"
)
#: As PubMed writes it ("Save", format PubMed): fields of the MEDLINE display format, lines folded at 87 characters.
NBIB = f"""PMID- 33009197
OWN - NLM
STAT- MEDLINE
IS  - 1530-0315 (Electronic)
VI  - 53
IP  - 4
DP  - 2021 Apr 1
TI  - Greater Hamstrings Muscle Hypertrophy but Similar Damage Protection after
      Training at Long versus Short Muscle Lengths.
PG  - 825-837
LID - {DOI} [doi]
AB  - PURPOSE: An abstract that is left behind.
      It goes on here.
FAU - Maeo, Sumiaki
AU  - Maeo S
AD  - Somewhere.
FAU - Huang, Meng
AU  - Huang M
LA  - eng
PT  - Journal Article
JT  - Medicine and science in sports and exercise
MH  - Adult
PMC - PMC7969179
AID - {DOI} [doi]
"""
RIS = f"""TY  - JOUR
AU  - Maeo, Sumiaki
AU  - Huang, Meng
TI  - {TITLE}
JO  - Medicine & Science in Sports & Exercise
PY  - 2021
VL  - 53
IS  - 4
SP  - 825
EP  - 837
DO  - {DOI}
KW  - hamstrings
AB  - An abstract that is left behind.
UR  - https://doi.org/{DOI}
ER  -
"""
BIBTEX = f"""@article{{Maeo_2021,
  title={{{TITLE}}},
  volume={{53}},
  ISSN={{0195-9131}},
  url={{http://dx.doi.org/{DOI}}},
  DOI={{{DOI}}},
  number={{4}},
  journal={{Medicine & Science in Sports & Exercise}},
  publisher={{Ovid Technologies}},
  author={{Maeo, Sumiaki and Huang, Meng}},
  year={{2021}},
  month=apr,
  pages={{825–837}},
  abstract={{An abstract that is left behind.}},
  keywords={{hamstrings}}
}}
"""
#: As the registry answers a DOI (content negotiation), shortened.
CSL = f"""{{"type": "journal-article", "title": "{TITLE}", "container-title": "Medicine & Science in Sports & Exercise",
 "author": [{{"given": "Sumiaki", "family": "Maeo", "sequence": "first"}}, {{"given": "Meng", "family": "Huang"}}],
 "issued": {{"date-parts": [[2021, 4]]}}, "volume": "53", "issue": "4", "page": "825-837", "DOI": "{DOI}",
 "URL": "http://dx.doi.org/{DOI}", "abstract": "left behind"}}"""
ALL = {"work.nbib": NBIB, "work.ris": RIS, "work.bib": BIBTEX, "work.json": CSL}
