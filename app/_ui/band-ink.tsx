import type { ReactNode } from "react";
import type { Band } from "../../lib/schema/words.ts";

type Key = Band | "never-tested";

const ring = { r: 3.9, fill: "none", stroke: "var(--band)", strokeWidth: 1.2 } as const;
const filled = <circle r="4.5" fill="var(--band)" />;

/** A cylinder seen from above, about its middle. */
const bores: Readonly<Record<Key, ReactNode>> = {
  "never-tested": <circle {...ring} strokeDasharray="1.7 1.4" />,
  sound: <circle {...ring} />,
  watch: (
    <>
      <circle {...ring} />
      <circle r="1.9" fill="var(--band)" />
    </>
  ),
  plan: filled,
  "past-limit": (
    <>
      {filled}
      <path d="M-5.5 0H5.5" stroke="var(--surface)" strokeWidth="1.8" />
    </>
  ),
};

const ink = "currentColor";
const round = { cx: 7, cy: 7, fill: "none", stroke: ink } as const;

/** A band's mark, 14 by 14. */
const marks: Readonly<Record<Key, ReactNode>> = {
  "never-tested": <circle {...round} r="5.2" strokeWidth="1.5" strokeDasharray="2 2.1" />,
  sound: <circle {...round} r="5" strokeWidth="1.5" />,
  watch: (
    <>
      <circle {...round} r="5.6" strokeWidth="1.6" />
      <circle cx="7" cy="7" r="2.5" fill={ink} />
    </>
  ),
  plan: (
    <>
      <path d="M1.5 1H12.5L7 10.2Z" fill={ink} />
      <path d="M1.5 12.6H12.5" stroke={ink} strokeWidth="1.8" />
    </>
  ),
  "past-limit": <path d="M3 .5H11V5H3ZM3 9H11V13.5H3ZM0 6.1H14V7.9H0Z" fill={ink} />,
};

const drawings = { bore: bores, mark: marks };

/** What bores and band marks are drawn with: once in the frame, used wherever a band is shown. */
export function BandInk() {
  return (
    <svg className="ink-defs" width="0" height="0" aria-hidden="true">
      <defs>
        {Object.entries(drawings).map(([kind, shapes]) =>
          Object.entries(shapes).map(([key, shape]) => (
            <g key={`${kind}-${key}`} id={`${kind}-${key}`}>
              {shape}
            </g>
          )),
        )}
      </defs>
    </svg>
  );
}
