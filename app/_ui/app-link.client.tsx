"use client";

import Link, { useLinkStatus } from "next/link";
import { usePathname } from "next/navigation";
import type { ComponentProps } from "react";

type Variant = "text" | "button" | "filled" | "bare";

/**
 * A link within the app. `button` and `filled` look like buttons (one filled on a page); `bare` brings no look of its
 * own. Nothing is fetched ahead: a page of the Fleet has some fifty links, and each would have the server make a page
 * that is seldom asked for. While another view of the page is awaited the present one stays, and turns pale after a moment;
 * another page shows as grey bars then (`PageWait`).
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
      <LinkWait href={rest.href} />
    </Link>
  );
}

type Href = ComponentProps<typeof Link>["href"];

/** Nothing while its page is not awaited: a page has some sixty links. */
function LinkWait({ href }: { readonly href: Href }) {
  return useLinkStatus().pending ? <Waiting href={href} /> : null;
}

/** Stands in a link while its page is awaited; the style sheet sees it. */
function Waiting({ href }: { readonly href: Href }) {
  const pathname = usePathname();
  const path = (typeof href === "string" ? href : (href.pathname ?? "")).split(/[?#]/)[0];
  return <span className="link-wait" data-to={path === "" || path === pathname ? "same-page" : "other-page"} />;
}
