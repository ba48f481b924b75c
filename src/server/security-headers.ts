import type { MiddlewareHandler } from 'hono';

/** Everything from this server, nothing written into the page itself, nothing from anywhere else. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': CONTENT_SECURITY_POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=(), usb=()',
};

/** Puts the headers on every answer; data are not kept by the browser unless the answer says so itself. */
export const securityHeaders: MiddlewareHandler = async (context, next) => {
  await next();
  for (const [name, value] of Object.entries(HEADERS)) context.res.headers.set(name, value);
  if (!context.res.headers.has('Cache-Control')) context.res.headers.set('Cache-Control', 'no-store');
};
