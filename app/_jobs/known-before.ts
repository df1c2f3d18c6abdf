import { testsAndUnits } from "../../db/facts.ts";
import type { Store } from "../../db/store.ts";
import { type UnitHistory, unitHistories } from "../../db/unit-histories.ts";
import { checkKey, meterKey, repairKey, testKey } from "../../lib/intake/fact-keys.ts";
import type { KnownHistory } from "../../lib/intake/judge-unit.ts";
import type { OddnessBefore } from "../../lib/intake/odd-tests.ts";
import { identityTold } from "../../lib/intake/unit-identity.ts";
import type { IsoDate, JudgementFact, TestFact } from "../../lib/schema/facts.ts";
import { withdrawnBy } from "../../lib/withdrawn.ts";

/** What the store holds of the units; those not known are missing. Give some dozen units at a time. */
export async function knownBefore(store: Store, units: readonly string[]): Promise<Map<string, KnownHistory>> {
  const histories = await unitHistories(store, units);
  return new Map([...histories].map(([unit, history]) => [unit, beforeOf(history)]));
}

/** What the store holds of the units that new tests are looked at beside; those without tests or a first day are missing. */
export async function knownTests(store: Store, units: readonly string[]): Promise<Map<string, OddnessBefore>> {
  const facts = await testsAndUnits(store, units);
  const known = new Map<string, KnownTests>();
  const of = (unit: string) => {
    const found = known.get(unit) ?? { tests: [], inServiceDate: null, withdrawn: { tests: [], judgements: [] } };
    known.set(unit, found);
    return found;
  };
  const { isWithdrawn, left } = withdrawnBy(facts.judgements);
  for (const test of facts.tests) {
    if (!isWithdrawn(test)) of(test.unit).tests.push(test);
    if (left(test) !== test) of(test.unit).withdrawn.tests.push(test);
  }
  for (const judgement of facts.judgements) {
    if (judgement.verdict === "withdrawn") of(judgement.unit).withdrawn.judgements.push(judgement);
  }
  for (const { unit, inServiceDate } of facts.units) of(unit).inServiceDate = inServiceDate;
  return known;
}

interface KnownTests extends OddnessBefore {
  readonly tests: TestFact[];
  inServiceDate: IsoDate | null;
  readonly withdrawn: { readonly tests: TestFact[]; readonly judgements: JudgementFact[] };
}

type KnownMeter = KnownHistory["meterReadings"][number];

function beforeOf({ listed, tests: told, repairs, meterReadings, checks, judgements }: UnitHistory): KnownHistory {
  const { isWithdrawn } = withdrawnBy(judgements);
  const tests = told.filter((test) => !isWithdrawn(test));
  const readings: KnownMeter[] = [];
  const add = (fact: { date: string; meter: number | null; line: number }, key: string, reset = false) => {
    const { date, meter, line } = fact;
    // Nobody is told the file of what is known.
    if (meter !== null) readings.push({ date, meter, reset, file: "", line, key });
  };
  for (const test of tests) add(test, testKey(test));
  for (const fact of meterReadings) add(fact, meterKey(fact), fact.meterReset);
  for (const fact of repairs) add(fact, repairKey(fact));
  for (const fact of checks) add(fact, checkKey(fact));
  return { ...identityTold(listed, tests, null), isListed: listed !== null, meterReadings: readings, judgements };
}
