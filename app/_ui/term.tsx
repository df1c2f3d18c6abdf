import { glossary, type TermKey } from "../../lib/glossary.ts";
import { TermHelp } from "./term-help.client.tsx";

/** A word of the trade with its line of the glossary; `shown` where the sentence needs another form of it. */
export function Term({ of, shown }: { readonly of: TermKey; readonly shown?: string }) {
  const { word, meaning } = glossary[of];
  return <TermHelp shown={shown ?? word} meaning={meaning} at={`/words#${of}`} />;
}
