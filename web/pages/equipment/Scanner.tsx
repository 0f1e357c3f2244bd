import { useEffect, useRef } from "react";
import { qrDetector } from "./scan.ts";

/** Interval between two looks at the camera's picture. Milliseconds. */
const LOOK_MS = 200;

interface Props {
  onRead(text: string): void;
  /** The camera cannot be opened, or the picture cannot be read. */
  onFailed(): void;
}

/** Shows the camera's picture and reads the first code in it. The camera is closed with the component. */
export function Scanner({ onRead, onFailed }: Props) {
  const video = useRef<HTMLVideoElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the camera is opened once
  useEffect(() => {
    let open = true;
    let stream: MediaStream | null = null;
    const close = () => {
      open = false;
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    const look = async () => {
      const detector = qrDetector();
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
      const picture = video.current;
      if (!open || !picture || !detector) return close();
      picture.srcObject = stream;
      await picture.play();
      while (open) {
        const [found] = await detector.detect(picture);
        if (found && open) {
          onRead(found.rawValue);
          return;
        }
        await new Promise((later) => setTimeout(later, LOOK_MS));
      }
    };
    look().catch(() => open && onFailed());
    return close;
  }, []);
  return <video ref={video} muted playsInline />;
}
