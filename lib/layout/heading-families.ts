import type { LayoutField } from "./layout.ts";

/** Headings that workshops make of the same few words: each noun with each ending, each verb with each preposition. */

const withEach = (words: readonly string[], endings: readonly string[]): readonly string[] =>
  words.flatMap((word) => endings.map((ending) => `${word} ${ending}`.trim()));
const ahead = (beginnings: readonly string[], words: readonly string[]): readonly string[] =>
  beginnings.flatMap((beginning) => words.map((word) => `${beginning} ${word}`));

/** Kinds of machine; alone over a column they may be the kind as well as the number. */
export const machines =
  `unit fleet vehicle veh truck lorry coach van bus machine plant asset equipment equip tractor mower
  pump generator genset car wagon rig loader excavator digger dumper boat aircraft taxi cab tail inventory fzg
  fahrzeug`.split(/\s+/);
const plates = ["reg", "regn", "registration", "plate", "number plate", "license plate", "licence plate"];
const numbered = ["no", "number", "id", "nr", "ref", "reference", "code", "tag"];

const meters =
  `meter mtr odometer odo speedo speedometer tacho tachometer hobbs hubometer hub clock mileage miles kms km
  hours hrs hr hourmeter hour`.split(/\s+/);
const hourMeters = ["hour meter", "hr meter", "hours meter", "hour mtr", "hr mtr", "hour clock", "engine hour meter"];
const runs =
  `engine eng machine total current present working operating operation running run cumulative cum service clock
  meter actual vehicle truck unit`.split(/\s+/);

const people = [
  "mechanic",
  "mech",
  "technician",
  "tech",
  "fitter",
  "engineer",
  "operator",
  "inspector",
  "employee",
  "emp",
];
const doneWords = `tested inspected checked measured done performed recorded taken made`.split(/\s+/);
const occasions =
  `test testing inspection check checking measurement reading service svc job visit entry workshop`.split(/\s+/);

/** Of dates that are none of a test: when it is due again, or what else became of the unit, the gauge or the paper. */
export const otherDates: ReadonlySet<string> = new Set(
  `due next expiry expires built build manufactured commissioned purchase purchased calibration calibrated printed
  report reported`.split(/\s+/),
);

const testers = `gauge tester instrument tool kit device manometer`.split(/\s+/);
const testSets = ["test kit", "test set", "test equipment", "test gauge", "leak tester", "leakdown tester"];

const airSounds =
  `air leak leaks leaking leakage hiss hissing noise sound blow blowing escape escapes escaping heard`.split(/\s+/);
const airPhrases = [
  "air heard",
  "air escaping",
  "air escapes",
  "air leak",
  "air leaking",
  "air loss",
  "air noise",
  "leak heard",
];

/** Phrases by what they head; German ones as they stand in sheets that are English else, without their umlauts. */
export const headingFamilies: Partial<Record<LayoutField | "value" | "ignored", readonly string[]>> = {
  unit: [
    ...withEach(machines, ["", ...numbered]),
    ...withEach(plates, ["", "no", "number", "mark"]),
    ...machines.flatMap((machine) => ahead([machine], withEach(plates, ["", "no", "number"]))),
    ...["vrn", "vrm", "call sign", "callsign", "kennzeichen", "kfz kennzeichen"],
  ],
  test_date: [
    ...doneWords.flatMap((word) => [word, `${word} on`, `date ${word}`]),
    ...occasions.flatMap((word) => [`${word} date`, `${word} dt`, `date of ${word}`, `dt of ${word}`]),
    ...["dt", "date in", "carried out on", "ro date", "datum", "prufdatum", "pruefdatum", "messdatum", "testdatum"],
    ...["date dd mm yy", "date dd mm yyyy", "date mm dd yy", "date mm dd yyyy", "date yyyy mm dd"],
  ],
  meter: [
    ...withEach([...meters, ...hourMeters], ["", "reading", "rdg", "at test", "at time of test", "in", "now"]),
    ...ahead(runs, ["hours", "hrs", "hr", "kms", "km", "miles", "mileage", "odometer", "odo"]),
    ...withEach(["kms", "km", "miles", "hours", "hrs"], ["run", "done", "covered", "travelled", "traveled"]),
    ...["hmr", "smr", "smu", "kmr", "tach time", "kilometrage", "odometer miles", "odo miles"],
    ...["km stand", "kilometerstand", "betriebsstunden", "stunden", "std", "bh", "zahlerstand", "zaehlerstand"],
  ],
  cylinder: [
    ...withEach(["pot", "bore", "hole", "plug", "zyl", "zylinder"], ["no", "number", "nr"]),
    ...["zyl", "zylinder", "cyl position", "cylinder position", "position"],
  ],
  value: ["rdg", "gauge rdg", "actual", "observed", "observed value", "measured pressure", "messwert", "wert", "druck"],
  test: [
    ...["dry or wet", "wet or dry", "w d", "d w", "comp ld", "comp leakdown", "procedure", "prufart", "pruefart"],
    ...withEach(["test"], ["name", "performed", "carried out", "done", "made"]),
  ],
  value_unit: ["einheit", "pressure units", "unit of pressure", "units of pressure", "gauge unit", "gauge units"],
  meter_unit: ["h km", "hrs km", "hours km", "km or hrs", "km or h", "hrs or km"],
  supply: [
    ...withEach(["supply", "reg", "regulator", "line", "input", "inlet", "applied", "set"], ["pressure", "press"]),
    ...["supply air", "air in", "set at", "prufdruck", "pruefdruck"],
  ],
  heard_at: [
    ...withEach(
      [...airSounds, ...airPhrases],
      ["at", "from", "to", "where", "location", "point", "path", "source", "area"],
    ),
    ...["heard in", "source of leak", "where air heard", "where is air heard", "where air escapes", "where it leaks"],
    ...["luft horbar", "luft hoerbar", "undicht an", "air"],
  ],
  tested_by: [
    ...withEach(people, ["", "name", "no", "id", "initials"]),
    ...ahead(["name of"], people),
    ...withEach([...doneWords, "carried out", "entered", "signed", "attended", "serviced"], ["by"]),
    ...["initial", "inits", "sign", "prufer", "pruefer", "mechaniker", "monteur", "bearbeiter"],
  ],
  instrument: [
    ...withEach([...testers, ...testSets], ["", ...numbered, "used", "serial", "serial no", "s n"]),
    ...["prufgerat", "pruefgeraet", "messgerat", "messgeraet"],
  ],
  remarks: [
    ...withEach(["remark", "remarks", "comment", "comments", "note", "notes", "observations"], ["", "if any"]),
    ...ahead(
      ["other", "additional", "further", "general", "mechanic", "mechanic s", "tech", "technician"],
      ["remarks", "comments", "notes"],
    ),
    ...["notes comments", "comments notes", "details", "description", "other", "condition", "defect", "defects"],
    ...["complaint", "action taken", "further action", "work done", "recommendation", "recommendations"],
    ...["bemerkung", "bemerkungen", "anmerkung", "anmerkungen", "kommentar", "hinweis", "notiz"],
  ],
  depot: [
    ...["home depot", "terminal", "division", "region", "workshop location", "depot name"],
    ...["standort", "betriebshof", "werkstatt"],
  ],
  engine_model: ["engine make", "engine family", "eng type", "engine code", "motortyp"],
  engine_serial: ["engine s n", "motor nr", "motornummer"],
  ignored: [
    ...withEach(["sr", "ro", "ticket", "work order", "invoice", "lfd"], ["no", "nr"]),
    ...["ro", "ticket", "grade", "rating", "nominal", "standard", "std value", "min spec", "variance", "ratio"],
    ...["ambient temp", "oil temp", "oil grade", "priority", "time", "time in", "time out"],
  ],
};
