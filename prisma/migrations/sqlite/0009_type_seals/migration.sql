-- The seal of an approved version: a signed note about its whole row, and the key that signed it.
ALTER TABLE "AircraftType" ADD COLUMN "seal" TEXT;
ALTER TABLE "AircraftType" ADD COLUMN "sealKey" TEXT;

-- A version that was approved before there were seals may be given one, once, and nothing else of it changes.
DROP TRIGGER "AircraftType_approved_no_update";
CREATE TRIGGER "AircraftType_approved_no_update" BEFORE UPDATE ON "AircraftType"
WHEN OLD."status" = 'approved' AND NOT (
    OLD."seal" IS NULL AND NEW."seal" IS NOT NULL
    AND NEW."id" IS OLD."id" AND NEW."version" IS OLD."version" AND NEW."name" IS OLD."name"
    AND NEW."body" IS OLD."body" AND NEW."status" IS OLD."status" AND NEW."author" IS OLD."author"
    AND NEW."authors" IS OLD."authors" AND NEW."approvedBy" IS OLD."approvedBy"
    AND NEW."approvedById" IS OLD."approvedById" AND NEW."approvedAt" IS OLD."approvedAt"
    AND NEW."revision" IS OLD."revision" AND NEW."createdAt" IS OLD."createdAt"
    AND NEW."changedAt" IS OLD."changedAt"
)
BEGIN
    SELECT RAISE(ABORT, 'an approved version never changes');
END;
