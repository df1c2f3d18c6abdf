import type { ToldTest } from "../../../db/test-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { measureWords } from "../../../lib/wording.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { placeWords } from "../unit/unit-words.ts";

type F = Pick<Formats, "number" | "date">;
type Head = Omit<ToldTest, "readings">;
type Reading = ToldTest["readings"][number];

const notRecorded = "not recorded";

/** As many decimals as were written. */
const figure = (value: number, f: F): string => f.number(value, String(value).split(".")[1]?.length ?? 0);
const figureOr = (value: number | null, unit: string, f: F): string =>
  value === null ? notRecorded : `${figure(value, f)}${unit}`;
const answer = (value: boolean | null): string => (value === null ? notRecorded : value ? "yes" : "no");

/** What is told of a test as a whole, in the order of the form: how it is named, and how what stands is written. */
const headWords: { readonly [K in keyof Head]: readonly [string, (of: Head, f: F) => string] } = {
  unit: ["unit", ({ unit }) => unit],
  date: ["date", ({ date }, f) => f.date(date)],
  time: ["time", ({ time }) => time ?? notRecorded],
  test: ["kind of test", ({ test }) => measureWords[test]],
  attempt: ["attempt", ({ attempt }) => String(attempt)],
  instrument: ["tester", ({ instrument }) => instrument ?? notRecorded],
  meter: ["meter", ({ meter }, f) => figure(meter, f)],
  meterUnit: ["meter unit", ({ meterUnit }) => meterUnit],
  depot: ["depot", ({ depot }) => depot ?? notRecorded],
  engineSerial: ["engine", ({ engineSerial }) => engineSerial ?? notRecorded],
  engineModel: ["engine model", ({ engineModel }) => engineModel ?? notRecorded],
  testedBy: ["tested by", ({ testedBy }) => testedBy ?? notRecorded],
  orificeMm: ["restrictor bore", ({ orificeMm }, f) => figureOr(orificeMm, " mm", f)],
  crankingRpm: ["cranking speed", ({ crankingRpm }, f) => figureOr(crankingRpm, "/min", f)],
  altitudeM: ["altitude", ({ altitudeM }, f) => figureOr(altitudeM, " m", f)],
  barometerKpa: ["air pressure", ({ barometerKpa }, f) => figureOr(barometerKpa, " kPa", f)],
  warm: ["warm", ({ warm }) => answer(warm)],
  throttleOpen: ["throttle open", ({ throttleOpen }) => answer(throttleOpen)],
  allPlugsOut: ["all plugs out", ({ allPlugsOut }) => answer(allPlugsOut)],
  tdcConfirmed: ["top dead centre confirmed", ({ tdcConfirmed }) => answer(tdcConfirmed)],
  gaugeZeroed: ["gauge zeroed", ({ gaugeZeroed }) => answer(gaugeZeroed)],
};

const supplyUnit = ({ valueUnit }: Reading): string => (valueUnit === "%" ? "kPa" : valueUnit);

const readingWords: readonly (readonly [string, (of: Reading, f: F) => string])[] = [
  ["", (of, f) => `${figure(of.value, f)} ${of.valueUnit}`],
  [", supply", (of, f) => figureOr(of.supply, ` ${supplyUnit(of)}`, f)],
  [", first stroke", (of, f) => figureOr(of.firstStroke, ` ${of.valueUnit}`, f)],
  [
    ", heard at",
    ({ heardAt }) => (heardAt.length === 0 ? notRecorded : heardAt.map((place) => placeWords[place]).join(" + ")),
  ],
  [", place in the order", ({ order }, f) => figureOr(order, "", f)],
  [", remarks", ({ remarks }) => remarks ?? "none"],
];

/** What differs between a test as it was told and as it is told now, cell by cell. A model that was left out is no change. */
export function testChanges(before: ToldTest, after: ToldTest, f: F): readonly ChangeLine[] {
  const lines: ChangeLine[] = [];
  const compare = (column: string, was: string, is: string) => {
    if (was !== is) lines.push({ column, before: was, after: is });
  };
  for (const [key, [column, words]] of Object.entries(headWords)) {
    if (key !== "engineModel") compare(column, words(before, f), words(after, f));
  }
  const byCylinder = (of: ToldTest) => new Map(of.readings.map((reading) => [reading.cylinder, reading]));
  const [old, next] = [byCylinder(before), byCylinder(after)];
  for (const cylinder of [...new Set([...old.keys(), ...next.keys()])].sort((a, b) => a - b)) {
    const [was, is] = [old.get(cylinder), next.get(cylinder)];
    for (const [column, words] of readingWords) {
      const nothing = column === "" ? "not measured" : words({ ...(was ?? is)!, ...blankReading }, f);
      const tell = (of: Reading | undefined) => (of === undefined ? nothing : words(of, f));
      compare(`cylinder ${cylinder}${column}`, tell(was), tell(is));
    }
  }
  return lines;
}

const blankReading = { supply: null, firstStroke: null, heardAt: [], order: null, remarks: null };
