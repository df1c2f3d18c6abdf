import type { TestEvent, TestNamed } from "../../../db/test-history.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { measureTitles } from "../unit/unit-words.ts";
import { whenWords } from "../when.ts";
import { testAddress } from "./address.ts";
import { type WithdrawnTest, withdrawalOf } from "./withdrawn.ts";

interface Shown {
  readonly f: Formats;
  readonly timeZone: string;
}

/** Tests that were told in error: kept and named, though nothing of them counts. */
export function WithdrawnTests({ tests, f, timeZone }: Shown & { readonly tests: readonly WithdrawnTest[] }) {
  if (tests.length === 0) return null;
  return (
    <Sheet title="Withdrawn tests" note="told in error: kept, and nothing of them counts">
      <ul className="unit-notes">
        {tests.map(({ key, test, withdrawal }) => (
          <li key={key}>
            <AppLink href={testAddress(test.unit, test)}>{nameOf(test, f)}</AppLink>, withdrawn by {withdrawal.judgedBy}
            , {whenWords(f, timeZone, withdrawal.at)}: {f.words(withdrawal.reason)}
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

/** What stands above the page of a withdrawn test, with the way to what it was told again as. */
export function WithdrawnNote({ events, f, timeZone }: Shown & { readonly events: readonly TestEvent[] }) {
  const withdrawal = withdrawalOf(events);
  if (withdrawal === null) return null;
  const { judgedBy, at, reason, toldAs } = withdrawal;
  return (
    <p className="caution">
      Withdrawn by {judgedBy}, {whenWords(f, timeZone, at)}: {f.words(reason)}. Nothing of it counts.
      {toldAs !== null && (
        <>
          {" "}
          <AppLink href={testAddress(toldAs.unit, toldAs)}>See it as it was told again</AppLink>
        </>
      )}
    </p>
  );
}

const nameOf = ({ test, date, attempt, instrument }: TestNamed, f: Formats): string =>
  [
    `${measureTitles[test]}, ${f.date(date)}`,
    ...(attempt > 1 ? [`attempt ${attempt}`] : []),
    ...(instrument === null ? [] : [instrument]),
  ].join(", ");
