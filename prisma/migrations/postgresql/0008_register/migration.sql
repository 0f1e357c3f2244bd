-- The register of the house: every state of its aircraft and of what it keeps, one row each, only ever added to.

-- CreateTable
CREATE TABLE "RegisterEntry" (
    "kind" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "revision" INTEGER NOT NULL,
    "at" BIGINT NOT NULL,
    "by" TEXT NOT NULL,
    "reason" TEXT,
    "body" TEXT NOT NULL,

    CONSTRAINT "RegisterEntry_pkey" PRIMARY KEY ("kind", "id", "revision")
);

-- Each aircraft is taken over, on the newest approved version of its type: the one it was planned on until now.
INSERT INTO "RegisterEntry" ("kind", "id", "revision", "at", "by", "reason", "body")
SELECT 'aircraft', a."id", 1, a."createdAt", 'program', NULL, json_build_object(
    'id', a."id",
    'name', a."name",
    'typeId', a."typeId",
    'typeVersion', COALESCE((SELECT MAX(t."version") FROM "AircraftType" t WHERE t."id" = a."typeId" AND t."status" = 'approved'), 1),
    'fitted', '[]'::json,
    'stand', NULL,
    'notes', NULL,
    'retired', false
)::text FROM "Aircraft" a;

CREATE TRIGGER "RegisterEntry_no_update" BEFORE UPDATE ON "RegisterEntry"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('the register is append-only');

CREATE TRIGGER "RegisterEntry_no_delete" BEFORE DELETE ON "RegisterEntry"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('the register is append-only');

CREATE TRIGGER "RegisterEntry_no_truncate" BEFORE TRUNCATE ON "RegisterEntry"
FOR EACH STATEMENT EXECUTE FUNCTION "chockside_refuse"('the register is append-only');

DROP TABLE "Aircraft";
