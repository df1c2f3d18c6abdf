import type { StepGain } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { gainSentences } from "./gain-words.ts";

/** What "settles about half of what is open" is made of, folded behind its figure. */
export function GainDetails({ gain, f }: { readonly gain: StepGain; readonly f: Formats }) {
  return (
    <details className="unit-gain no-print">
      <summary>What it settles, in figures: {f.probability(gain.share)}</summary>
      {gainSentences(gain, f).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <table className="data-table">
        <caption className="visually-hidden">Results that it may have</caption>
        <thead>
          <tr>
            <th scope="col">If it shows</th>
            <th scope="col" className="number">
              Chance
            </th>
            <th scope="col" className="number">
              Still open, bits
            </th>
          </tr>
        </thead>
        <tbody>
          {gain.results.map(({ seen, chance, left }) => (
            <tr key={seen}>
              <td>{seen}</td>
              <td className="number">{f.probability(chance)}</td>
              <td className="number">{f.number(left, 2)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
