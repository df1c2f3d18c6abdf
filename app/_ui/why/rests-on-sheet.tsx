import type { ReactNode } from "react";
import type { Explained } from "@/lib/explain/types.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { recordAddress, testAddress } from "../recording/address.ts";
import { Sheet } from "../sheet.tsx";
import { faultWords, openStepWords, powersWords, rulingWords, shapeWords, shareWords } from "./why-words.ts";

/** A share that is not worth a line of its own. */
const leastShare = 0.02;

/** What the rate leans on: own tests and sisters, the shapes of wear believed, faults that may have begun. */
export function RestsOnSheet(props: { readonly e: Explained; readonly unit: string; readonly f: Formats }) {
  const { e, unit, f } = props;
  const lines = [
    ...e.course.shapes.map(({ kind, share }) => ({ words: shapeWords[kind], share, test: null })),
    ...e.course.faults.map((fault) => ({ words: faultWords(fault, f), share: fault.share, test: fault.test })),
  ].filter(({ share }) => share >= leastShare);
  return (
    <Sheet title="What its rate rests on">
      <p>{shareWords(e, f)}</p>
      <ul className="why-shares">
        <Share words="this engine’s own tests" share={e.ownShare} f={f} />
        <Share
          words={e.sisters.engines === 0 ? "starting values for engines at large" : "its sister engines"}
          share={1 - e.ownShare}
          f={f}
        />
      </ul>
      <h3 className="why-sub">How it is believed to go on</h3>
      <ul className="why-shares">
        {lines.map(({ words, share, test }) => (
          <Share key={words} words={words} share={share} f={f}>
            {test !== null && <AppLink href={testAddress(unit, test, e.cylinder)}>confirm or reject</AppLink>}
          </Share>
        ))}
      </ul>
      {e.openStep !== null && (
        <p>
          {openStepWords(e, f)} <AppLink href={recordAddress(unit, "repair")}>Record the repair</AppLink>, or set the
          tests aside on the unit’s page.
        </p>
      )}
      {e.course.rulings.length > 0 && (
        <ul className="why-rulings">
          {e.course.rulings.map((ruling) => (
            <li key={`${ruling.test.date} ${ruling.test.attempt} ${ruling.test.instrument}`}>
              {rulingWords(ruling, f)}{" "}
              <AppLink href={testAddress(unit, ruling.test, e.cylinder)}>Judge it again</AppLink>
            </li>
          ))}
        </ul>
      )}
      {(e.course.faults.length > 0 || e.course.rulings.length > 0) && (
        <p className="second">
          A fault is read from the tests alone, unless a person confirms or rejects it. What a look inside shows goes on
          file under <AppLink href={recordAddress(unit, "check")}>other evidence</AppLink>.
        </p>
      )}
      <details className="unit-figures">
        <summary>How this is reckoned</summary>
        <p>
          Before its own tests, the rate is held to be that of its sister engines, within their spread. The own share is
          how far its tests have narrowed that: one, less what is left of the variance over what there was. Each way of
          going on is followed through all tests; how well it foretold them, and how common it is among the sisters,
          gives its share. A fault is looked for between every two tests.
        </p>
        <p>{powersWords(e, f)}</p>
      </details>
    </Sheet>
  );
}

function Share(props: {
  readonly words: string;
  readonly share: number;
  readonly f: Formats;
  readonly children?: ReactNode;
}) {
  const { words, share, f, children } = props;
  return (
    <li>
      <span className="why-share-words">
        {words} {children}
      </span>
      <span className="why-share-figure">{f.probability(share)}</span>
      <span className="why-share-track" aria-hidden="true">
        <span style={{ width: `${100 * share}%` }} />
      </span>
    </li>
  );
}
