import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { pagesBeside } from "./places.ts";

/** The last line of every page and of every print: what the figures stand on, and who decides. */
export function SiteFoot(props: {
  readonly f: Formats;
  readonly asOf: IsoDate;
  /** Some engine model is one of aircraft. */
  readonly hasAircraft: boolean;
  readonly lastImport: { readonly date: IsoDate; readonly by: string; readonly files: readonly string[] } | null;
}) {
  const { f, lastImport } = props;
  const imported = lastImport === null ? "nothing imported yet" : `last import ${f.date(lastImport.date)}`;
  return (
    <footer className="site-foot">
      {/* On each sheet of paper, where the foot itself stands on the last alone. */}
      <style>{`@media print{@page{@bottom-left{content:"as of ${f.date(props.asOf)}, ${imported}";font:9pt sans-serif}}}`}</style>
      <p>
        As of {f.date(props.asOf)}.{" "}
        {lastImport === null
          ? "Nothing imported yet."
          : `Last import ${f.date(lastImport.date)} by ${lastImport.by}: ${filesInWords(lastImport.files)}.`}
      </p>
      <p>
        A forecast helps to plan the work. The maker’s manual, local rules and trained people decide.
        {props.hasAircraft && (
          <span className="foot-aircraft">
            {" "}
            Of aircraft engines approved data and a licensed engineer decide; these pages only record and plan.
          </span>
        )}
      </p>
      <nav aria-label="More pages" className="foot-pages no-print">
        {pagesBeside.map(({ href, title }) => (
          <AppLink key={href} href={href} className="foot-page">
            {title}
          </AppLink>
        ))}
      </nav>
    </footer>
  );
}

const filesInWords = (files: readonly string[]): string =>
  files.length <= 2 ? listWords(files) : `${files[0]} and ${countWord(files.length - 1)} more files`;
