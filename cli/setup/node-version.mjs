/**
 * Why this Node cannot be used, in one sentence, or nothing when it can. Reads like very old JavaScript because it
 * must run on the very versions that it refuses.
 * @param {string} version as in process.versions.node
 * @param {string} needed the oldest version that will do
 */
export function nodeRefusal(version, needed) {
  const have = version.split(".").map(Number);
  const need = needed.split(".").map(Number);
  const older = have[0] === need[0] ? have[1] < need[1] : have[0] < need[0];
  return older ? `Borecast needs Node ${needed} or newer; this is Node ${version}.` : undefined;
}

/** Ends the program when this Node is too old. @param {string} needed */
export function requireNode(needed) {
  const refusal = nodeRefusal(process.versions.node, needed);
  if (refusal === undefined) return;
  console.error(refusal);
  process.exit(1);
}
