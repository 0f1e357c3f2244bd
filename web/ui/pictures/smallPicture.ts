/** Longer side of a picture that is sent, in pixels: enough to see a crack in a close picture. */
const SIDE = 2_048;
const QUALITY = 0.82;

/**
 * Returns a file's picture as a JPEG that is upright, small enough to send, and without what the camera wrote into it.
 * @throws Error when the browser cannot read the file
 */
export async function smallPicture(file: Blob): Promise<Blob> {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  try {
    const scale = Math.min(1, SIDE / Math.max(picture.width, picture.height));
    const canvas = document.createElement("canvas");
    canvas.width = Math.max(1, Math.round(picture.width * scale));
    canvas.height = Math.max(1, Math.round(picture.height * scale));
    const pen = canvas.getContext("2d");
    if (!pen) throw new Error("this browser draws nothing");
    // A JPEG has no transparency: what shows through is white, not black.
    pen.fillStyle = "white";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    return await new Promise((done, failed) =>
      canvas.toBlob((blob) => (blob ? done(blob) : failed(new Error("too large"))), "image/jpeg", QUALITY),
    );
  } finally {
    picture.close();
  }
}
