import { readFileSync, writeSync } from "node:fs";

/**
 * Loaded into a measured process before its program: at its end, writes to channel 3, as JSON, its peak resident memory
 * in KiB and the processor time of all its threads in microseconds.
 */
process.on("exit", () => {
  const { user, system } = process.cpuUsage();
  writeSync(3, JSON.stringify({ peakKib: peakKib(), processorMicroseconds: user + system }));
});

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
