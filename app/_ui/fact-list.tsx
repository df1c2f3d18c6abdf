import type { ReactNode } from "react";

/** Facts of one thing, each as a term and its words. */
export function FactList({ facts }: { readonly facts: readonly (readonly [term: string, words: ReactNode])[] }) {
  return (
    <dl className="fact-list">
      {facts.map(([term, words]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}
