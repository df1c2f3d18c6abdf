import { daysBetween } from "../calendar.ts";
import { besideLeakage, compressionLostTo } from "../condition/leakage-cost.ts";
import type { Finding } from "./bayes.ts";
import { deficitPercent, type EngineView, medianOfOthers, ramp } from "./engine-view.ts";
import { hasFallen } from "./parting.ts";
import { percentInWords } from "./words.ts";

/** Less than this is within the scatter of one test. */
const lowPercent = 8;
/** A leak-down test so much older than the compression says less of it, and after so long hardly half as much. */
const [fresh, stale, sayOfStale] = [90, 730, 0.4];

/** One reading that no second has borne out hides so much of what a cylinder leaks: the fault may be the test's. (J) */
const sayOfOneReading = 0.6;

/** Compression of one cylinder that lies below its siblings' by more than what its leakage beside theirs costs. */
export interface Unexplained {
  readonly findings: readonly Finding[];
  /** One reading alone tells of it: the first one, or the last one after others that were as the siblings'. */
  readonly isOneReading: boolean;
  /** Of what the cylinder has lost, the part that leakage does not explain, 0 to 1, by how clear it is. */
  readonly share: number;
  /** How clear it is, 0 to 1. */
  readonly clear: number;
}

/**
 * Low or falling compression that leakage does not explain, held against the siblings and not against a limit: what all of
 * them leak costs all of them alike, and tells nothing of why this one is low. It holds air but does not fill (cam, lift,
 * clearance, inlet), or it was tested wrongly (adaptor, hose, plug threads). null: nothing of the kind, or no leak-down tells.
 */
export function unexplainedLow(view: EngineView, cylinder: number): Unexplained | null {
  const own = view.compression[cylinder - 1] ?? null;
  const leak = view.leakDown[cylinder - 1] ?? null;
  const others = medianOfOthers(view.compression, [cylinder]);
  const [latest] = own?.readings ?? [];
  // A model that is not judged on compression may have a decompressor: low from new means nothing.
  if (own === null || latest === undefined || leak === null || others === null) return null;
  if (view.model.compression === undefined) return null;
  const deficit = deficitPercent(own.level, others);
  const othersLeak = medianOfOthers(view.leakDown, [cylinder]);
  const { unexplained, explained } = besideLeakage(deficit, { leakagePercent: leak.level, othersPercent: othersLeak });
  if (unexplained < lowPercent) return null;

  const falling = view.fallings[cylinder - 1] ?? null;
  const fallen = falling !== null && hasFallen(falling) ? falling : null;
  const isOneReading = own.readings.length === 1 || (fallen?.since === 1 && (fallen.sudden || fallen.before === 1));
  const age = Math.max(0, daysBetween(leak.readings[0]?.date ?? latest.date, latest.date));
  const trust = own.trust * (1 - (1 - sayOfStale) * ramp(age, fresh, stale));
  const renewed = own.renewed | leak.renewed;
  const clear = ramp(unexplained, 4, 14) * trust;
  const beside =
    othersLeak === null || Math.abs(leak.level - othersLeak) < 1
      ? `${percentInWords(leak.level)} %${othersLeak === null ? "" : " as the others’"}`
      : `${percentInWords(leak.level)} %, the others’ ${percentInWords(othersLeak)} %`;
  const findings: Finding[] = [
    {
      id: "low-compression-normal-leakage",
      strength: clear,
      slots: {
        deficit,
        leakage:
          leak.level < view.watchPercent && explained < 1
            ? `leakage normal (${percentInWords(leak.latest)} %)`
            : `leakage (${beside}) explains ${explained < 0.5 ? "none of it" : `only about ${percentInWords(explained)} %`}`,
      },
      renewed,
    },
  ];
  if (fallen !== null) {
    const strength = ramp(Math.min(fallen.beyond, unexplained), 2, 12) * trust;
    const tests = String(fallen.since + fallen.before);
    findings.push(
      isOneReading
        ? { id: "compression-odd-reading", strength, slots: { fall: fallen.beyond }, renewed }
        : // Half of it was said by its being low.
          {
            id: "compression-fall-unexplained",
            strength: 0.5 * strength,
            slots: { fall: fallen.inAll, tests },
            renewed,
          },
    );
  }
  const borneOut = isOneReading ? sayOfOneReading : 1;
  const share = (borneOut * clear * unexplained) / (unexplained + compressionLostTo(leak.level));
  return { findings, isOneReading, share, clear };
}
