import { daysBetween } from "../calendar.ts";
import { type Cause, type CheckKind, causes } from "../schema/words.ts";
import type { EngineCheck } from "../sealing/types.ts";
import { checkWords, dateWords } from "../wording.ts";
import type { Finding } from "./bayes.ts";
import type { EngineView } from "./engine-view.ts";
import { renewedSinceDay } from "./renewals.ts";

/** Say of a check that saw the whole engine about one of its cylinders. */
const wholeEngineStrength = 0.7;
const suspectStrength = 0.4;
const oldAfterDays = 730;

/**
 * The last check of each kind that looked at this cylinder or at the whole engine. Checks older than the last renewing
 * repair of the cylinder do not count; a clearance check is out of date after an adjustment, too.
 */
export function observeChecks(view: EngineView, cylinder: number): Finding[] {
  return checksInForce(view, cylinder).flatMap((check) => findingsOf(view, check));
}

/** The checks that still speak of the cylinder: the last of each kind, made since its last repair. */
export function checksInForce(view: EngineView, cylinder: number): readonly EngineCheck[] {
  const latest = new Map<CheckKind, EngineCheck>();
  for (const check of view.engine.history.checks) {
    if (check.date > view.asOf || (check.cylinder !== null && check.cylinder !== cylinder)) continue;
    if (isOutOfDate(view, cylinder, check)) continue;
    const known = latest.get(check.check);
    const isNewer = known === undefined || check.date > known.date;
    // On one day, what was seen in this cylinder goes before what was seen of the engine.
    if (isNewer || (check.date === known.date && (check.cylinder !== null || known.cylinder === null))) {
      latest.set(check.check, check);
    }
  }
  return [...latest.values()];
}

function findingsOf(view: EngineView, check: EngineCheck): Finding[] {
  const scope = check.cylinder === null ? wholeEngineStrength : 1;
  const age = daysBetween(check.date, view.asOf) > oldAfterDays ? 0.5 : 1;
  const certainty = check.result === "suspect" ? suspectStrength : 1;
  const strength = scope * age * certainty;
  const named = check.result === "clear" ? [] : namedCauses(check.remarks);
  if (named.length > 0) {
    const slots = { check: checkWords[check.check], date: dateWords(check.date) };
    // Two causes named share the say, or the second would speak against the first.
    return named.map((cause) => ({
      id: `check-names-${cause}` as const,
      strength: strength / named.length,
      slots,
      renewed: 0,
    }));
  }
  const id = `check-${check.check}-${check.result === "clear" ? "clear" : "fault"}` as const;
  return [{ id, strength, slots: { date: dateWords(check.date), result: check.result }, renewed: 0 }];
}

/** The causes that the remarks of a check name, as `cause: exhaust-valve` or several joined by `+`. */
function namedCauses(remarks: string | null): Cause[] {
  const written = /cause:\s*([a-z+\s-]+)/i.exec(remarks ?? "")?.[1];
  if (written === undefined) return [];
  const words = written
    .toLowerCase()
    .split("+")
    .map((word) => word.trim().split(/\s/)[0]);
  return causes.filter((cause) => words.includes(cause));
}

function isOutOfDate(view: EngineView, cylinder: number, check: EngineCheck): boolean {
  // A check on the day of the repair is what led to it, whatever the meter says.
  if (renewedSinceDay(view.recent.renewals[cylinder - 1] ?? [], check.date) !== 0) return true;
  if (check.check !== "valve-clearance") return false;
  return view.engine.history.repairs.some(
    (repair) =>
      repair.scope === "adjustment" &&
      repair.cylinders.includes(cylinder) &&
      repair.date >= check.date &&
      repair.date <= view.asOf,
  );
}
