"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import { isHere, places } from "./places.ts";

export function PlaceLinks() {
  const pathname = usePathname();
  return (
    <ul className="place-links">
      {places.map(({ href, title }) => (
        <li key={href}>
          <Link href={href} {...(isHere(href, pathname) ? { "aria-current": "page" as const } : {})}>
            {title}
          </Link>
        </li>
      ))}
    </ul>
  );
}
