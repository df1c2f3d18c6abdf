"use client";

import Link, { useLinkStatus } from "next/link";
import type { ComponentProps } from "react";

type Variant = "text" | "button" | "filled" | "bare";

/**
 * A link within the app. `button` and `filled` look like buttons (one filled on a page); `bare` brings no look of its
 * own. Nothing is fetched ahead: a page of the Fleet has some fifty links, and each would have the server make a page
 * that is seldom asked for. While the next page is awaited the present one stays, and turns pale after a moment.
 */
export function AppLink({
  variant = "text",
  className,
  children,
  ...rest
}: ComponentProps<typeof Link> & { readonly variant?: Variant }) {
  const own = variant === "button" || variant === "filled" ? "button-link" : "";
  const all = [own, className].filter(Boolean).join(" ");
  return (
    <Link prefetch={false} {...rest} {...(all === "" ? {} : { className: all })} data-variant={variant}>
      {children}
      <LinkWait />
    </Link>
  );
}

/** Stands in a link while its page is awaited; the style sheet sees it. */
function LinkWait() {
  const { pending } = useLinkStatus();
  return pending ? <span className="link-wait" /> : null;
}
