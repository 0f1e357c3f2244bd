-- What was removed once it had been kept long enough, and that it was.

-- CreateTable
CREATE TABLE "Removal" (
    "id" TEXT NOT NULL,
    "at" BIGINT NOT NULL,
    "note" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,

    CONSTRAINT "Removal_pkey" PRIMARY KEY ("id")
);

CREATE TRIGGER "Removal_no_update" BEFORE UPDATE ON "Removal"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('removals are append-only');

CREATE TRIGGER "Removal_no_delete" BEFORE DELETE ON "Removal"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('removals are append-only');

CREATE TRIGGER "Removal_no_truncate" BEFORE TRUNCATE ON "Removal"
FOR EACH STATEMENT EXECUTE FUNCTION "chockside_refuse"('removals are append-only');
