"use client";

import { useFormats } from "../formats.client.tsx";

/** What is said of work that is not cut short, because half of it would be kept. */
export const endsWhole = {
  import: "It runs to its end, also when you leave this page; afterwards it can be undone.",
  undo: "It runs to its end, also when you leave this page.",
} as const;

/**
 * How far something is: a sentence and a bar. The bar shows that work goes on where its share is not known. `note`: what
 * else to know meanwhile; `file`: one that the sentence names.
 */
export function ProgressLine(props: {
  readonly says: string;
  readonly share: number | null;
  readonly note?: string;
  readonly file?: string;
}) {
  const { says, share, note, file } = props;
  const f = useFormats().knowing(file === undefined ? [] : [file]);
  return (
    <div className="progress-line">
      <p>{f.words(says)}</p>
      <progress aria-label={says} max={1} {...(share === null ? {} : { value: Math.min(1, share) })} />
      {note !== undefined && <p className="second small">{note}</p>}
    </div>
  );
}
