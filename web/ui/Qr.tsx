import { useEffect, useState } from "react";
import { useLaterWords } from "../words/later.ts";

/** An address as a QR code, drawn as one path. The encoder is fetched only when a code is shown. */
export function Qr({ text, label }: { text: string; label: string }) {
  const words = useLaterWords().sessionSheet;
  const [drawn, setDrawn] = useState<{ size: number; path: string } | null>(null);
  useEffect(() => {
    let wanted = true;
    void import("qrcode").then(({ create }) => {
      const { size, data } = create(text, { errorCorrectionLevel: "M" }).modules;
      const path = Array.from(data, (dark, i) =>
        dark ? `M${i % size} ${Math.floor(i / size)}h1v1h-1z` : "",
      ).join("");
      if (wanted) setDrawn({ size, path });
    });
    return () => {
      wanted = false;
    };
  }, [text]);
  if (!drawn) return <p>{words.drawing}</p>;
  return (
    <svg viewBox={`-3 -3 ${drawn.size + 6} ${drawn.size + 6}`} className="qr" role="img" aria-label={label}>
      <title>{label}</title>
      <rect x="-3" y="-3" width={drawn.size + 6} height={drawn.size + 6} className="qr-ground" />
      <path d={drawn.path} className="qr-dark" />
    </svg>
  );
}
