-- The seal of an approved version: a signed note about its whole row, and the key that signed it.
ALTER TABLE "AircraftType" ADD COLUMN "seal" TEXT;
ALTER TABLE "AircraftType" ADD COLUMN "sealKey" TEXT;

-- A version that was approved before there were seals may be given one, once, and nothing else of it changes.
DROP TRIGGER "AircraftType_approved_no_update" ON "AircraftType";
CREATE TRIGGER "AircraftType_approved_no_update" BEFORE UPDATE ON "AircraftType"
FOR EACH ROW WHEN (OLD."status" = 'approved' AND NOT (
    OLD."seal" IS NULL AND NEW."seal" IS NOT NULL
    AND (NEW."id", NEW."version", NEW."name", NEW."body", NEW."status", NEW."author", NEW."authors", NEW."approvedBy",
         NEW."approvedById", NEW."approvedAt", NEW."revision", NEW."createdAt", NEW."changedAt")
      IS NOT DISTINCT FROM
        (OLD."id", OLD."version", OLD."name", OLD."body", OLD."status", OLD."author", OLD."authors", OLD."approvedBy",
         OLD."approvedById", OLD."approvedAt", OLD."revision", OLD."createdAt", OLD."changedAt")
))
EXECUTE FUNCTION "chockside_refuse"('an approved version never changes');
