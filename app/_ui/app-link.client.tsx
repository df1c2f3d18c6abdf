"use client";

import Link from "next/link";
import type { ComponentProps } from "react";

type Variant = "text" | "button" | "filled" | "bare";

/**
 * A link within the app. `button` and `filled` look like buttons (one filled on a page); `bare` brings no look of its
 * own. As a client component it may also be handed to a Mantine component from a client file.
 */
export function AppLink({
  variant = "text",
  className,
  ...rest
}: ComponentProps<typeof Link> & { readonly variant?: Variant }) {
  const own = variant === "button" || variant === "filled" ? "button-link" : variant === "text" ? "text-link" : "";
  const all = [own, className].filter(Boolean).join(" ");
  return <Link {...rest} {...(all === "" ? {} : { className: all })} data-variant={variant} />;
}
