/** The part of the Barcode Detection API that is used here. TypeScript does not know it yet. */
export interface Detector {
  detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}

type Detectors = new (options: { formats: string[] }) => Detector;

const detectors = (): Detectors | undefined =>
  (globalThis as { BarcodeDetector?: Detectors }).BarcodeDetector;

/** Returns true where the browser finds codes in a camera's picture by itself. Elsewhere a label is typed. */
export const canScan = (): boolean => detectors() !== undefined && "mediaDevices" in navigator;

/** Returns the browser's reader of QR codes; null where it has none. */
export function qrDetector(): Detector | null {
  const Detectors = detectors();
  return Detectors ? new Detectors({ formats: ["qr_code"] }) : null;
}
