-- The bytes of the defects' pictures. The evidence has their digests.

-- CreateTable
CREATE TABLE "Picture" (
    "record" TEXT NOT NULL,
    "no" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "at" BIGINT NOT NULL,
    "personId" TEXT NOT NULL,
    "media" TEXT NOT NULL,
    "length" INTEGER NOT NULL,
    "bytes" BLOB NOT NULL,

    PRIMARY KEY ("record", "no", "sha256")
);

-- CreateIndex
CREATE INDEX "Picture_personId_at_length_idx" ON "Picture"("personId", "at", "length");

CREATE TRIGGER "Picture_no_update" BEFORE UPDATE ON "Picture"
BEGIN
    SELECT RAISE(ABORT, 'a picture is never changed');
END;
