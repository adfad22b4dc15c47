/** An SVG picture as an address that an image can show, in a browser and in Node. */
export function svgDataUri(svg: string): string {
  const bytes = new TextEncoder().encode(svg);
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return `data:image/svg+xml;base64,${btoa(binary)}`;
}
