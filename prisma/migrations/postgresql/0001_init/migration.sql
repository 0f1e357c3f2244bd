-- The first shape of the database on PostgreSQL.
-- What follows up to the functions is what Prisma derives from schema.prisma; a test holds the two together.

-- CreateTable
CREATE TABLE "Event" (
    "session" TEXT NOT NULL,
    "seq" INTEGER NOT NULL,
    "at" BIGINT NOT NULL,
    "type" TEXT NOT NULL,
    "command" TEXT,
    "body" TEXT NOT NULL,
    "hash" TEXT NOT NULL,

    CONSTRAINT "Event_pkey" PRIMARY KEY ("session","seq")
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "planCommand" TEXT NOT NULL,
    "aircraft" TEXT NOT NULL,
    "typeId" TEXT NOT NULL,
    "typeVersion" INTEGER NOT NULL,
    "typeName" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "stage" TEXT NOT NULL,
    "needs" INTEGER NOT NULL,
    "createdAt" BIGINT NOT NULL,
    "closedAt" BIGINT,
    "headSeq" INTEGER NOT NULL,
    "headHash" TEXT NOT NULL,
    "headAt" BIGINT NOT NULL,

    CONSTRAINT "Session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Person" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "handle" TEXT NOT NULL,
    "pinHash" TEXT NOT NULL,
    "mayHold" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "currentUntil" BIGINT,
    "createdAt" BIGINT NOT NULL,
    "demo" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "Person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "SignIn" (
    "id" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "deviceId" TEXT NOT NULL,
    "deviceName" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "createdAt" BIGINT NOT NULL,
    "expiresAt" BIGINT NOT NULL,
    "revokedAt" BIGINT,

    CONSTRAINT "SignIn_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Lockout" (
    "key" TEXT NOT NULL,
    "failures" INTEGER NOT NULL,
    "lockedUntil" BIGINT,
    "updatedAt" BIGINT NOT NULL,

    CONSTRAINT "Lockout_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "AircraftType" (
    "id" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "status" TEXT NOT NULL,
    "author" TEXT NOT NULL,
    "authors" TEXT NOT NULL,
    "approvedBy" TEXT,
    "approvedById" TEXT,
    "approvedAt" BIGINT,
    "revision" INTEGER NOT NULL,
    "createdAt" BIGINT NOT NULL,
    "changedAt" BIGINT NOT NULL,

    CONSTRAINT "AircraftType_pkey" PRIMARY KEY ("id","version")
);

-- CreateTable
CREATE TABLE "Aircraft" (
    "id" TEXT NOT NULL,
    "typeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "createdAt" BIGINT NOT NULL,

    CONSTRAINT "Aircraft_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "Meta" (
    "key" TEXT NOT NULL,
    "value" TEXT NOT NULL,

    CONSTRAINT "Meta_pkey" PRIMARY KEY ("key")
);

-- CreateIndex
CREATE UNIQUE INDEX "Session_code_key" ON "Session"("code");

-- CreateIndex
CREATE UNIQUE INDEX "Session_planCommand_key" ON "Session"("planCommand");

-- CreateIndex
CREATE INDEX "Session_closedAt_createdAt_idx" ON "Session"("closedAt", "createdAt");

-- CreateIndex
CREATE INDEX "Session_aircraft_createdAt_idx" ON "Session"("aircraft", "createdAt");

-- CreateIndex
CREATE UNIQUE INDEX "Person_handle_key" ON "Person"("handle");

-- CreateIndex
CREATE UNIQUE INDEX "SignIn_tokenHash_key" ON "SignIn"("tokenHash");

-- CreateIndex
CREATE INDEX "SignIn_personId_idx" ON "SignIn"("personId");

-- CreateIndex
CREATE INDEX "SignIn_deviceId_idx" ON "SignIn"("deviceId");

-- AddForeignKey
ALTER TABLE "SignIn" ADD CONSTRAINT "SignIn_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- Evidence is append-only: our own code can neither rewrite nor remove an event by mistake.
-- (Whoever owns the table can drop a trigger: what shows that is the hash chain and its checkpoints.)
CREATE FUNCTION "chockside_refuse"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION '%', TG_ARGV[0];
END
$$;

CREATE TRIGGER "Event_no_update" BEFORE UPDATE ON "Event"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('events are append-only');

CREATE TRIGGER "Event_no_delete" BEFORE DELETE ON "Event"
FOR EACH ROW EXECUTE FUNCTION "chockside_refuse"('events are append-only');

CREATE TRIGGER "Event_no_truncate" BEFORE TRUNCATE ON "Event"
FOR EACH STATEMENT EXECUTE FUNCTION "chockside_refuse"('events are append-only');

-- Sessions pin a version of a type: what was approved stays as it was approved.
CREATE TRIGGER "AircraftType_approved_no_update" BEFORE UPDATE ON "AircraftType"
FOR EACH ROW WHEN (OLD."status" = 'approved')
EXECUTE FUNCTION "chockside_refuse"('an approved version never changes');

CREATE TRIGGER "AircraftType_approved_no_delete" BEFORE DELETE ON "AircraftType"
FOR EACH ROW WHEN (OLD."status" = 'approved')
EXECUTE FUNCTION "chockside_refuse"('an approved version is never removed');

CREATE TRIGGER "AircraftType_no_truncate" BEFORE TRUNCATE ON "AircraftType"
FOR EACH STATEMENT EXECUTE FUNCTION "chockside_refuse"('an approved version is never removed');
