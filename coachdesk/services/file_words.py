"""The words other programs' files use, in English, French and German whatever the desk speaks:
heads of columns, lifts, calls, sexes, months.

They are what clubs and federations write (common practice). The first ones of a line are English,
then French, then German, each of them with its spelling without accents where that is not the
plain letters alone ("Saetze").
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import StrEnum
from typing import TypeVar

from coachdesk.domain.athlete import LossBar
from coachdesk.domain.lifting import Equipment, Lift, Result, Sex
from coachdesk.services.csv_reading import plain_head
from coachdesk.wording.folding import folded

P = TypeVar("P", bound=StrEnum)
T = TypeVar("T")

_SHARED = {
    "name": "athlete;name;full name;lifter;athlete name;nom;nom complet;nom et prénom;nom prénom;"
    "athlète;sportif;athlet;athletin;sportler;heber;vollständiger name",
    "given": "given name;first name;forename;given;prénom;vorname;rufname",
    "family": "family name;last name;surname;family;nom de famille;nachname;familienname;zuname",
    "day": "day;date;on;weighed on;workout date;training date;jour;date de pesée;"
    "date de la séance;datum;tag;trainingstag;gewogen am",
    "unit": "unit;units;weight unit;unité;unités;unité de poids;einheit;gewichtseinheit",
    "note": "note;notes;remark;remarks;comment;comments;remarque;remarques;commentaire;"
    "commentaires;notiz;notizen;bemerkung;bemerkungen;kommentar;anmerkung",
}
"""Heads that mean the same in every file."""
_BODYWEIGHT = (
    "weight;bodyweight;body weight;weight now;mass;bw;poids;poids de corps;poids du corps;pdc;"
    "gewicht;körpergewicht;koerpergewicht;kg;lb;lbs"
)
WEIGHTS_HEADS: Mapping[str, str] = {
    **_SHARED,
    "weight": _BODYWEIGHT,
    "hour": "hour;time;time of day;at;heure;uhrzeit;zeit",
    "dress": "worn;dress;clothes;clothing;tenue;vêtements;kleidung",
    "scale": "scale;scales;balance;pèse personne;waage",
}
SETS_HEADS: Mapping[str, str] = {
    **_SHARED,
    "lift": "lift;exercise;movement;exercise name;mouvement;exercice;nom de l'exercice;übung;"
    "uebung;disziplin;bewegung",
    "variation": "variation;variant;variante",
    "weight": "weight;load;mass;bar weight;weight lifted;charge;poids;poids de la barre;gewicht;"
    "last;hantelgewicht;kg;lb;lbs",
    "sets": "sets;set count;number of sets;séries;nombre de séries;sätze;saetze;serien;"
    "anzahl sätze",
    "reps": "reps;rep;repetitions;reps done;répétitions;répétition;rép;réps;wiederholungen;"
    "wiederholung;wdh;whd",
    "rpe": "rpe;effort;rated effort;effort perçu;effort ressenti;anstrengung",
    "rir": "rir;reserve;reps in reserve;repetitions in reserve;réserve;en réserve;"
    "répétitions en réserve;in reserve;wiederholungen in reserve",
    "call": "call;result;judged result;résultat;décision;wertung;ergebnis",
    "cause": "cause;cause of no lift;motif;cause du refus;grund",
}
ATHLETES_HEADS: Mapping[str, str] = {
    **_SHARED,
    "sex": "sex;gender;women or men;sexe;genre;geschlecht",
    "born": "birth date;date of birth;born;born on;birthday;dob;date de naissance;naissance;"
    "né le;née le;né e le;geburtsdatum;geburtstag;geboren;geboren am;geb",
    "unit": f"{_SHARED['unit']};own unit",
    "equipment": "equipment;matériel;équipement;pratique;ausrüstung;ausruestung",
    "height": "height;height cm;body height;taille;taille cm;größe;groesse;körpergröße;größe cm",
    "weight": _BODYWEIGHT,
    "meets_before": "meets before;meets;number of meets;compétitions;nombre de compétitions;"
    "wettkämpfe;wettkaempfe;anzahl wettkämpfe",
    "member_number": "member number;membership number;membership;member;member no;licence;license;"
    "numéro de licence;n licence;n de licence;no licence;mitgliedsnummer;mitglied nr;startpass;"
    "startbuch",
    "member_until": "member until;membership until;valid until;paid until;expires;expiry;"
    "fin de licence;licence jusqu'au;valable jusqu'au;mitglied bis;gültig bis;gueltig bis",
    "phone": "phone;telephone;mobile;cell;phone number;téléphone;tél;portable;mobile;telefon;"
    "handy;telefonnummer",
    "email": "email;e mail;mail;email address;courriel;adresse e mail;adresse mail",
    "emergency": "emergency contact;in an emergency;emergency;ice;contact d'urgence;"
    "personne à prévenir;urgence;notfallkontakt;notfall;im notfall",
    "health": "health note;health;medical;santé;note de santé;gesundheit",
    "loss_bar": "loss bar;no weight loss",
}
_LIFTS = {
    Lift.SQUAT: "squat;squats;back squat;sq;low bar squat;competition squat;comp squat;"
    "flexion;flexions;flexion de jambes;flexion sur jambes;"
    "kniebeuge;kniebeugen;kb;wettkampfkniebeuge",
    Lift.BENCH: "bench;bench press;bp;benchpress;competition bench;competition bench press;"
    "comp bench;comp bench press;développé couché;développé couchés;dc;"
    "bankdrücken;bankdruecken;flachbankdrücken;bd;bank;wettkampfbankdrücken",
    Lift.DEADLIFT: "deadlift;deadlifts;dl;dead lift;conventional deadlift;sumo deadlift;"
    "competition deadlift;comp deadlift;soulevé de terre;soulevés de terre;soulevé;sdt;"
    "kreuzheben;kh;sumokreuzheben;wettkampfkreuzheben",
}
_FOLLOWED = {
    Lift.SQUAT: "flexion de jambes;flexion sur jambes",
    Lift.BENCH: "développé couché",
    Lift.DEADLIFT: "soulevé de terre",
}
_CALLS = {
    Result.GOOD: "good;good lift;made;white;réussi;validé;bon;gültig;geschafft",
    Result.NO_LIFT: "no lift;missed;miss;failed;red;manqué;refusé;raté;ungültig;verfehlt",
}
_SEXES = {
    Sex.FEMALE: "female;f;w;woman;women;femme;femmes;féminin;frau;frauen;weiblich",
    Sex.MALE: "male;m;man;men;h;homme;hommes;masculin;mann;männer;maenner;männlich;maennlich",
}
_EQUIPMENT = {
    Equipment.CLASSIC: "classic;raw;unequipped;classique;sans équipement;klassisch;ohne ausrüstung",
    Equipment.EQUIPPED: "equipped;geared;équipé;équipée;mit ausrüstung;ausgerüstet",
}
_MONTHS = (
    "jan;january;janv;janvier;januar;jän;jänner",
    "feb;february;févr;fév;février;februar",
    "mar;march;mars;märz;mär;maerz",
    "apr;april;avr;avril",
    "may;mai",
    "jun;june;juin;juni",
    "jul;july;juil;juillet;juli",
    "aug;august;août",
    "sep;sept;september;septembre",
    "oct;october;octobre;okt;oktober",
    "nov;november;novembre",
    "dec;december;déc;décembre;dez;dezember",
)


def heads(parts: type[P], words: Mapping[str, str]) -> dict[str, P]:
    """What each head known, plain, says of its column."""
    return {plain_head(head): part for part in parts for head in words[part].split(";")}


def plain_words(cell: str) -> str:
    """A cell without capitals, accents, marks and doubled blanks."""
    return " ".join(re.findall(r"[^\W_]+", folded(cell)))


def _named(names: Mapping[T, str]) -> dict[str, T]:
    """What each of the names stands for."""
    return {plain_words(name): what for what, many in names.items() for name in many.split(";")}


LIFTS: Mapping[str, Lift] = _named(_LIFTS)
FOLLOWED: Mapping[str, Lift] = _named(_FOLLOWED)
"""Names that the variation stands behind: "développé couché prise serrée"."""
CALLS: Mapping[str, Result] = _named(_CALLS)
SEXES: Mapping[str, Sex] = _named(_SEXES)
EQUIPMENT: Mapping[str, Equipment] = _named(_EQUIPMENT)
LOSS_BARS: Mapping[str, LossBar] = {bar.value: bar for bar in LossBar}
MONTHS: Mapping[str, int] = _named(dict(enumerate(_MONTHS, start=1)))
