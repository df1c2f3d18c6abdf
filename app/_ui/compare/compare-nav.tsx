import { AppLink } from "../app-link.client.tsx";

const pages = [
  { href: "/compare", title: "Units" },
  { href: "/compare/rates", title: "Rates" },
  { href: "/compare/testers", title: "Testers" },
] as const;

/** The three ways to compare. */
export function CompareNav({ here }: { readonly here: (typeof pages)[number]["href"] }) {
  return (
    <nav className="segments no-print compare-nav" aria-label="What is compared">
      {pages.map(({ href, title }) => (
        <AppLink key={href} href={href} variant="bare" {...(href === here ? { "aria-current": "page" as const } : {})}>
          {title}
        </AppLink>
      ))}
    </nav>
  );
}
