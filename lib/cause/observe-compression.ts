import { compressionLostTo } from "../condition/leakage-cost.ts";
import type { Finding } from "./bayes.ts";
import { deficitPercent, type EngineView, medianOfOthers, ramp, type Standing } from "./engine-view.ts";
import { observeCompressionCourse } from "./observe-course.ts";
import { unexplainedLow } from "./observe-unexplained.ts";

/** Below its siblings by less than this, a cylinder is within the scatter of one test. */
const lowDeficitPercent = 8;
/** Of the way from new to the minimum, where all cylinders alike are called low. */
const allLowShare = 0.6;

/** What compression says of a cylinder beside its leakage: low without leaking, leaking without being low, or just low. */
export function observeCompression(view: EngineView, cylinder: number): Finding[] {
  const leak = view.leakDown[cylinder - 1] ?? null;
  const findings: Finding[] = [];
  if (leak !== null && leak.latest >= 90) {
    const slots = { leakage: leak.latest };
    findings.push({ id: "near-total-leak", strength: leak.trust, slots, renewed: leak.renewed });
  }
  const own = view.compression[cylinder - 1] ?? null;
  const limits = view.model.compression;
  // A model that is not judged on compression may have a decompressor: low from new means nothing.
  if (own === null || limits === undefined) return findings;

  const others = medianOfOthers(view.compression, [cylinder]);
  const deficit = others === null ? 0 : deficitPercent(own.level, others);
  const othersLeak = medianOfOthers(view.leakDown, [cylinder]);
  const isLeakageNormal =
    leak !== null && leak.level < view.watchPercent && leak.level < (othersLeak ?? leak.level) + 4;
  const renewed = own.renewed | (leak?.renewed ?? 0);
  const { trust } = own;

  const unexplained = unexplainedLow(view, cylinder);
  if (unexplained !== null) findings.push(...unexplained.findings);
  if (deficit >= lowDeficitPercent) {
    if (leak === null) {
      findings.push({ id: "low-compression-one", strength: ramp(deficit, 4, 14) * trust, slots: { deficit }, renewed });
    }
  } else {
    const allLow = observeAllLow(view, own, leak === null ? null : isLeakageNormal);
    if (allLow !== null) findings.push({ ...allLow, renewed });
  }
  const course = unexplained === null ? observeCompressionCourse(view, cylinder) : null;
  if (course !== null) findings.push(course);
  if (leak !== null && leak.latest >= view.planPercent) {
    const siblings = others ?? limits.newKpa;
    const missing = Math.max(0, deficitPercent(own.level, siblings));
    const expected = compressionLostTo(leak.latest) - (others === null ? 0 : compressionLostTo(othersLeak ?? 6));
    const strength = ramp(expected - missing, 6, 16) * Math.min(trust, leak.trust);
    if (strength > 0) {
      const slots = {
        leakage: leak.latest,
        expected: expected,
        deficit: missing,
      };
      findings.push({ id: "high-leakage-good-compression", strength, slots, renewed });
    }
  }
  return findings;
}

/** All cylinders far down from new and near each other. `isLeakageNormal` null: no leak-down tells. */
function observeAllLow(
  view: EngineView,
  own: Standing,
  isLeakageNormal: boolean | null,
): Omit<Finding, "renewed"> | null {
  const limits = view.model.compression;
  const typical = medianOfOthers(view.compression, []);
  if (limits === undefined || typical === null) return null;
  const wayDown = (limits.newKpa - Math.max(typical, own.level)) / (limits.newKpa - limits.minimumKpa);
  const strength = ramp(wayDown, allLowShare - 0.2, 1) * own.trust;
  if (wayDown < allLowShare) return null;
  if (isLeakageNormal === null) return { id: "all-low", strength, slots: {} };
  // With raised leakage the low pressure is explained, and the leakage has spoken already.
  return isLeakageNormal ? { id: "all-low-normal-leakage", strength, slots: {} } : null;
}

/** A cylinder whose compression or leakage gives a reason to ask why: a sound one proves nothing by a wet test. */
export function isWeak(view: EngineView, cylinder: number): boolean {
  const own = view.compression[cylinder - 1];
  const leak = view.leakDown[cylinder - 1];
  if (leak != null && leak.level >= 0.9 * view.watchPercent) return true;
  if (own == null) return false;
  const others = medianOfOthers(view.compression, [cylinder]);
  if (others !== null && own.level < (1 - 0.06) * others) return true;
  const limits = view.model.compression;
  return limits !== undefined && own.level < limits.newKpa - 0.5 * (limits.newKpa - limits.minimumKpa);
}
