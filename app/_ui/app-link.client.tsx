"use client";

import Link, { useLinkStatus } from "next/link";
import type { ComponentProps } from "react";

type Variant = "text" | "button" | "filled" | "bare";

/**
 * A link within the app. `button` and `filled` look like buttons (one filled on a page); `bare` brings no look of its
 * own. While the next page is on its way the present one stays, and turns pale after a moment (`LinkWait`).
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
    <Link {...rest} {...(all === "" ? {} : { className: all })} data-variant={variant}>
      {children}
      <LinkWait />
    </Link>
  );
}

/** Stands in a link while its page is awaited; the style sheet sees it. */
export function LinkWait() {
  const { pending } = useLinkStatus();
  return pending ? <span className="link-wait" /> : null;
}
