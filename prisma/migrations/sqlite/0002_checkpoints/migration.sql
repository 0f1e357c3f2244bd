-- What the server has vouched for of each session's record.

-- CreateTable
CREATE TABLE "Checkpoint" (
    "session" TEXT NOT NULL,
    "size" INTEGER NOT NULL,
    "at" BIGINT NOT NULL,
    "note" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,

    PRIMARY KEY ("session", "size")
);

-- What was vouched for stays as it was.
CREATE TRIGGER "Checkpoint_no_update" BEFORE UPDATE ON "Checkpoint"
BEGIN
    SELECT RAISE(ABORT, 'checkpoints are append-only');
END;

CREATE TRIGGER "Checkpoint_no_delete" BEFORE DELETE ON "Checkpoint"
BEGIN
    SELECT RAISE(ABORT, 'checkpoints are append-only');
END;
