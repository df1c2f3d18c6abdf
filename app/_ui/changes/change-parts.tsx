import type { UnitChange } from "../../../lib/changes/compare.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { BandMark } from "../band-mark.tsx";
import { moveWords } from "./move-words.ts";
import "./changes.css";
import type { ToldChange } from "./told-change.ts";

/** The band then and now; one mark where it stayed. */
export function BandsThenAndNow({ was, now, change }: ToldChange) {
  const mark = (of: ToldChange["was"]) =>
    of === null ? null : <BandMark band={of.band} tested={of.lastTestDate !== null} />;
  if (now === null) return <Then mark={mark(was)} after="left the fleet" />;
  if (was === null) return <Then mark={mark(now)} before="new in the fleet" />;
  if (change.band === null) return mark(now);
  return (
    <span className="bands-then-now">
      <span className="band-then">{mark(was)}</span>
      <span aria-hidden="true" className="band-arrow">
        →
      </span>
      <span className="visually-hidden"> then, now </span>
      {mark(now)}
    </span>
  );
}

const Then = (props: { readonly mark: React.ReactNode; readonly before?: string; readonly after?: string }) => (
  <span className="bands-then-now">
    {props.mark}
    <span className="tag">{props.before ?? props.after}</span>
  </span>
);

interface Telling {
  readonly horizonEnd: IsoDate;
  readonly asOf: IsoDate;
  readonly f: Formats;
}

/** What moved beside the band, each as a line. */
export function movedLines(change: UnitChange, { horizonEnd, asOf, f }: Telling): readonly string[] {
  const { topEnd, bottomEnd, questions, newerTest } = change;
  const lines = [
    topEnd === null ? null : moveWords("top-end", topEnd, { horizonEnd, f }),
    bottomEnd === null ? null : moveWords("bottom-end", bottomEnd, { horizonEnd, f }),
    questions === null ? null : questionWords(questions, f),
    // Where more changed, the reasons name the test.
    newerTest === null || change.told ? null : `tested on ${f.shortDate(newerTest, asOf)}, nothing moved`,
  ];
  return lines.filter((line) => line !== null);
}

function questionWords({ from, to }: NonNullable<UnitChange["questions"]>, f: Formats): string {
  const count = Math.abs(to - from);
  const what = count === 1 ? "question" : "questions";
  return `${count === 1 ? "a" : f.number(count)} ${what} ${to > from ? "opened" : "settled"}`;
}

/** Why, the likeliest first. */
export function Why({ why, f }: { readonly why: readonly string[]; readonly f: Formats }) {
  if (why.length === 1) return <p>{f.words(why[0] ?? "")}</p>;
  return (
    <ul className="why-list">
      {why.map((words) => (
        <li key={words}>{f.words(words)}</li>
      ))}
    </ul>
  );
}
