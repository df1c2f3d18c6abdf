import type { StepGain } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";

/** The figures that "expected to settle a little of what is open" stands for, in sentences. */
export function gainSentences(gain: StepGain, f: Formats): readonly string[] {
  const { share, hours, effort, cause, repairClass, counts, rarer } = gain;
  const bits = (value: number) => f.number(value, 2);
  const [open, told] = [cause.open + repairClass.open, cause.told + repairClass.told];
  const half = counts === 1 ? "" : `, of which ${f.percent(100 * counts)} count, for it was listened to before`;
  const rare =
    rarer === 0
      ? ""
      : ` ${f.number(rarer)} rarer ${rarer === 1 ? "result is" : "results are"} not listed, but counted.`;
  return [
    `Open now: ${bits(open)} bits, ${bits(cause.open)} of the cause and ${bits(repairClass.open)} of the class of repair. A result is expected to tell ${bits(told)} of them, ${bits(cause.told)} of the cause and ${bits(repairClass.told)} of the class${half}: ${f.probability(share)}.`,
    `In some ${f.number(hours, 1)}\u00a0h that is ${f.percent((100 * share) / hours)} an hour, by which the tests are put in order. The hours are for ${effort} (common practice, no source).`,
    `A bit is what the answer tells to a question of which either answer is as likely; 0 bits: nothing is open. What is told is what is open now less what each result would leave, by its chance under the evidence table.${rare}`,
  ];
}
