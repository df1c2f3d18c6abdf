"use client";

import { useFormats } from "../formats.client.tsx";

/** How far something is: a sentence and a bar. The bar shows that work goes on where its share is not known. */
export function ProgressLine({ says, share }: { readonly says: string; readonly share: number | null }) {
  const f = useFormats();
  return (
    <div className="progress-line">
      <p>{f.words(says)}</p>
      <progress aria-label={says} max={1} {...(share === null ? {} : { value: Math.min(1, share) })} />
    </div>
  );
}
