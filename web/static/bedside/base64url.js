// Bytes as text and back: base64url without padding (RFC 4648, section 5).

export function written(buffer) {
  const bytes = Array.from(new Uint8Array(buffer), (b) => String.fromCharCode(b)).join("");
  return btoa(bytes).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

export const read = (text) => Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));
