import type { Formats } from "../../../lib/viewing/formats.ts";

/** What has changed since the plan was made, as sentences: each of what holds, for one does not take the place of the other. */
export function sinceWords(
  f: Formats,
  {
    changed,
    isBehind,
    isChosenSince,
  }: {
    /** How many units stand otherwise than the plan was made. */
    readonly changed: number;
    /** Facts, prices or settings have changed; what people chose has. */
    readonly isBehind: boolean;
    readonly isChosenSince: boolean;
  },
): readonly string[] {
  const stand = changed === 1 ? "One unit stands" : `${f.number(changed)} units stand`;
  return [
    ...(isBehind ? ["Facts, prices or settings have changed since."] : []),
    ...(changed > 0
      ? [`${stand} otherwise than it was made: by what people chose since. Nothing else was moved for that.`]
      : isChosenSince
        ? ["What people chose has changed since; no booking was moved for that."]
        : []),
  ];
}
