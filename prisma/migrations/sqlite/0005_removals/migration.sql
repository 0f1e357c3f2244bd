-- What was removed once it had been kept long enough, and that it was.

-- CreateTable
CREATE TABLE "Removal" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "at" BIGINT NOT NULL,
    "note" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL
);

CREATE TRIGGER "Removal_no_update" BEFORE UPDATE ON "Removal"
BEGIN
    SELECT RAISE(ABORT, 'removals are append-only');
END;

CREATE TRIGGER "Removal_no_delete" BEFORE DELETE ON "Removal"
BEGIN
    SELECT RAISE(ABORT, 'removals are append-only');
END;
