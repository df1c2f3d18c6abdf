import path from "node:path";

/**
 * @typedef {{ passed: number, failed: number, skipped: number }} Counts
 */

/** @type {() => Counts} */
export const none = () => ({ passed: 0, failed: 0, skipped: 0 });

/** @param {Counts[]} all @returns {Counts} */
export const sum = (all) =>
  all.reduce(
    (total, { passed, failed, skipped }) => ({
      passed: total.passed + passed,
      failed: total.failed + failed,
      skipped: total.skipped + skipped,
    }),
    none(),
  );

const verdicts = { passed: "passed", failed: "failed" };

/**
 * Counts a vitest report by the folder under tests/ that its files lie in. A file that could not even be loaded
 * reports no test: it counts as one that failed.
 * @param {{ testResults: { name: string, status: string, assertionResults: { status: string }[] }[] }} report
 * @param {string} testsFolder absolute
 * @returns {Map<string, Counts>}
 */
export function countUnitTests(report, testsFolder) {
  const byFolder = new Map();
  for (const file of report.testResults) {
    const [folder] = path.relative(testsFolder, file.name).split(path.sep);
    const counts = byFolder.get(folder) ?? none();
    for (const { status } of file.assertionResults) counts[verdicts[status] ?? "skipped"] += 1;
    if (file.status === "failed" && !file.assertionResults.some(({ status }) => status === "failed"))
      counts.failed += 1;
    byFolder.set(folder, counts);
  }
  return byFolder;
}

/**
 * Counts a Playwright report. A test that passed only when repeated has failed; an error outside any test is a failure.
 * @param {{ stats: { expected: number, unexpected: number, flaky: number, skipped: number }, errors: unknown[] }} report
 * @returns {Counts}
 */
export const countBrowserTests = ({ stats, errors }) => ({
  passed: stats.expected,
  failed: stats.unexpected + stats.flaky + errors.length,
  skipped: stats.skipped,
});

/**
 * What a run says beside its exit status: a run that failed without a failed test, or that held no test, has failed.
 * @param {Counts} counts @param {number} status exit status @returns {Counts}
 */
export function trusting(counts, status) {
  const silent = counts.failed === 0 && (status !== 0 || counts.passed === 0);
  return silent ? { ...counts, failed: 1 } : counts;
}
