import type { NextConfig } from "next";

/** Another folder than .next lets a second build of the same tree stand beside the first, as while an app is running. */
const buildFolder = process.env["BORECAST_BUILD"] || ".next";
const isDevelopment = process.env.NODE_ENV === "development";

/** Everything comes from this server. Next writes inline scripts and Mantine inline styles, each its own on every page. */
const contentSecurityPolicy = [
  "default-src 'self'",
  `script-src 'self' 'unsafe-inline'${isDevelopment ? " 'unsafe-eval'" : ""}`,
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  `connect-src 'self'${isDevelopment ? " ws:" : ""}`,
  "object-src 'none'",
  "base-uri 'self'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

const config: NextConfig = {
  distDir: buildFolder,
  typescript: {
    // `npm test` checks the types, and of all sources: a build that did it once more would keep the first start waiting.
    ignoreBuildErrors: true,
    // Next enters its folder in the TypeScript configuration that it uses: a second build brings its own.
    ...(buildFolder === ".next" ? {} : { tsconfigPath: `tsconfig${buildFolder}.json` }),
  },
  poweredByHeader: false,
  reactStrictMode: true,
  serverExternalPackages: ["better-sqlite3"],
  images: { unoptimized: true },
  experimental: {
    // A first build is faster without the cache and 90 MB smaller; a build is only made when sources changed anyway.
    turbopackFileSystemCacheForBuild: false,
  },
  headers: async () => [
    {
      source: "/:path*",
      headers: [
        { key: "Content-Security-Policy", value: contentSecurityPolicy },
        { key: "X-Content-Type-Options", value: "nosniff" },
        { key: "X-Frame-Options", value: "DENY" },
        { key: "Referrer-Policy", value: "same-origin" },
      ],
    },
  ],
};

export default config;
