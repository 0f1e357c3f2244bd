-- What the server has vouched for of each session's record.

-- CreateTable
CREATE TABLE "Checkpoint" (
    "session" TEXT NOT NULL,
    "size" INTEGER NOT NULL,
    "at" BIGINT NOT NULL,
    "note" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,

    CONSTRAINT "Checkpoint_pkey" PRIMARY KEY ("session", "size")
);

-- What was vouched for stays as it was.
CREATE TRIGGER "Checkpoint_no_update" BEFORE UPDATE ON "Checkpoint"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('checkpoints are append-only');

CREATE TRIGGER "Checkpoint_no_delete" BEFORE DELETE ON "Checkpoint"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('checkpoints are append-only');

CREATE TRIGGER "Checkpoint_no_truncate" BEFORE TRUNCATE ON "Checkpoint"
FOR EACH STATEMENT EXECUTE FUNCTION "chockside_refuse"('checkpoints are append-only');
