import type { IsoDate } from "../../../lib/schema/facts.ts";
import { countWord, formatDate, listWords } from "../formats.ts";

/** The last line of every page and of every print: what the figures stand on, and who decides. */
export function SiteFoot(props: {
  readonly asOf: IsoDate;
  readonly lastImport: { readonly date: IsoDate; readonly by: string; readonly files: readonly string[] } | null;
}) {
  const { lastImport } = props;
  return (
    <footer className="site-foot">
      <p>
        As of {formatDate(props.asOf)}.{" "}
        {lastImport === null
          ? "Nothing imported yet."
          : `Last import ${formatDate(lastImport.date)} by ${lastImport.by}: ${filesInWords(lastImport.files)}.`}
      </p>
      <p>A forecast helps to plan the work. The maker’s manual, local rules and trained people decide.</p>
    </footer>
  );
}

const filesInWords = (files: readonly string[]): string =>
  files.length <= 2 ? listWords(files) : `${files[0]} and ${countWord(files.length - 1)} more files`;
