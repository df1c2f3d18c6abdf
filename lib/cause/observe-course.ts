import type { Finding } from "./bayes.ts";
import { type EngineView, ramp, type Standing } from "./engine-view.ts";
import { hasFallen, hasParted } from "./parting.ts";

/**
 * Between the two lies how fast a cylinder parts from its siblings, in points for each 1,000 h (or the distance of as many):
 * rings lose up to 3, an exhaust valve goes from its first hiss to the limit, 20 points, in 50 to 400 h (both common
 * practice).
 */
const wearPace = 4;
const valvePace = 25;
/** From these on a cylinder that always stood above its siblings is told to. */
const apartRatio = 1.3;
const apartTests = 3;
/** Hours in which a valve goes from its first hiss to the limit: standing still over fewer tells little against it. */
const [valveSoonest, valveLatest] = [50, 400];

/**
 * How one cylinder's leakage parted from its siblings': in one step, fast over several tests, slowly, or not at all though
 * it always stood above them. Each test is held against the median of the others, so that what a test gets wrong for all
 * cancels. null: it did not part, or there is nothing to compare with.
 */
export function observeCourse(view: EngineView, own: Standing, cylinder: number): Finding | null {
  const parting = view.partings[cylinder - 1] ?? null;
  if (parting === null) return null;
  const { trust, renewed } = own;
  const { beyond, to, since, before, perThousandHours: pace, ratio } = parting;
  if (!hasParted(parting)) {
    const tests = since + before;
    if (ratio < apartRatio || tests < apartTests || own.level < 0.7 * view.watchPercent) return null;
    const lasted = ramp(parting.hours, valveSoonest, valveLatest);
    const strength = ramp(ratio, 1.15, 1.5) * ramp(tests, 2, 5) * lasted * trust;
    if (strength === 0) return null;
    return {
      id: "always-apart",
      strength,
      slots: { times: 100 * (parting.plainRatio - 1), tests: String(tests) },
      renewed,
    };
  }
  if (parting.sudden) {
    const strength = ramp(beyond, 3, 12) * ramp(parting.z, 1.5, 4) * trust;
    return { id: "sudden-step", strength, slots: { from: Math.round(Math.max(0, to - beyond)), to }, renewed };
  }
  const slots = { rise: beyond, tests: String(since + before) };
  // Half way between the two paces, on their logarithms, neither is told from the other.
  const fast = ramp(Math.log(Math.max(pace, wearPace)), Math.log(wearPace), Math.log(valvePace));
  const clear = ramp(beyond, 2, 10) * trust;
  return fast >= 0.5
    ? { id: "fast-own-rise", strength: (2 * fast - 1) * clear, slots, renewed }
    : { id: "slow-own-rise", strength: (1 - 2 * fast) * clear, slots, renewed };
}

/** The same in compression, of which the 20 points that a valve comes to cost some 8 % (observe-compression.ts). */
const wearFall = 1.6;
const valveFall = 10;

/**
 * How one cylinder's compression fell beside its siblings': in one step, fast, or slowly. Asked only where its leakage has no
 * course to tell by, which shows the same sooner and sharper. null: it did not fall, or there is nothing to compare with.
 */
export function observeCompressionCourse(view: EngineView, cylinder: number): Finding | null {
  const own = view.compression[cylinder - 1] ?? null;
  const falling = view.fallings[cylinder - 1] ?? null;
  const leak = view.leakDown[cylinder - 1] ?? null;
  const hasCourse = leak !== null && leak.readings.length > 1 && (view.partings[cylinder - 1] ?? null) !== null;
  if (own === null || falling === null || hasCourse || !hasFallen(falling)) return null;
  const { trust, renewed } = own;
  const { beyond, z, since, before, sudden, perThousandHours: pace } = falling;
  const clear = ramp(beyond, 2, 12) * trust;
  if (sudden)
    return { id: "compression-sudden-fall", strength: clear * ramp(z, 1.5, 4), slots: { fall: beyond }, renewed };
  const slots = { fall: beyond, tests: String(since + before) };
  const fast = ramp(Math.log(Math.max(pace, wearFall)), Math.log(wearFall), Math.log(valveFall));
  return fast >= 0.5
    ? { id: "compression-fast-fall", strength: (2 * fast - 1) * clear, slots, renewed }
    : { id: "compression-slow-fall", strength: (1 - 2 * fast) * clear, slots, renewed };
}
