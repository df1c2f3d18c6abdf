import { readFileSync, writeSync } from "node:fs";

/** Loaded into a measured process before its program: at its end, writes its peak resident memory in KiB to channel 3. */
process.on("exit", () => writeSync(3, String(peakKib())));

/** A process that was forked counts its parent's memory in `maxRSS`; Linux tells its own elsewhere. */
function peakKib() {
  try {
    const own = /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync("/proc/self/status", "utf8"));
    if (own !== null) return Number(own[1]);
  } catch {
    // No Linux.
  }
  return process.resourceUsage().maxRSS;
}
