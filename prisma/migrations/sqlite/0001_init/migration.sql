-- The first shape of the database.
-- What follows up to the triggers is what Prisma derives from schema.prisma; a test holds the two together.

-- CreateTable
CREATE TABLE "Event" (
    "session" TEXT NOT NULL,
    "seq" INTEGER NOT NULL,
    "at" BIGINT NOT NULL,
    "type" TEXT NOT NULL,
    "command" TEXT,
    "body" TEXT NOT NULL,
    "hash" TEXT NOT NULL,

    PRIMARY KEY ("session", "seq")
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL PRIMARY KEY,
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
    "headAt" BIGINT NOT NULL
);

-- CreateTable
CREATE TABLE "Person" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "handle" TEXT NOT NULL,
    "pinHash" TEXT NOT NULL,
    "mayHold" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "currentUntil" BIGINT,
    "createdAt" BIGINT NOT NULL,
    "demo" BOOLEAN NOT NULL DEFAULT false
);

-- CreateTable
CREATE TABLE "SignIn" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "personId" TEXT NOT NULL,
    "deviceId" TEXT NOT NULL,
    "deviceName" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "createdAt" BIGINT NOT NULL,
    "expiresAt" BIGINT NOT NULL,
    "revokedAt" BIGINT,
    CONSTRAINT "SignIn_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE RESTRICT
);

-- CreateTable
CREATE TABLE "Lockout" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "failures" INTEGER NOT NULL,
    "lockedUntil" BIGINT,
    "updatedAt" BIGINT NOT NULL
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

    PRIMARY KEY ("id", "version")
);

-- CreateTable
CREATE TABLE "Aircraft" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "typeId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "createdAt" BIGINT NOT NULL
);

-- CreateTable
CREATE TABLE "Meta" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "value" TEXT NOT NULL
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

-- Evidence is append-only: our own code can neither rewrite nor remove an event by mistake.
-- (Whoever holds the file can drop a trigger: what shows that is the hash chain and its checkpoints.)
-- INSERT OR REPLACE reaches the delete trigger only while PRAGMA recursive_triggers is on.
CREATE TRIGGER "Event_no_update" BEFORE UPDATE ON "Event"
BEGIN
    SELECT RAISE(ABORT, 'events are append-only');
END;

CREATE TRIGGER "Event_no_delete" BEFORE DELETE ON "Event"
BEGIN
    SELECT RAISE(ABORT, 'events are append-only');
END;

-- Sessions pin a version of a type: what was approved stays as it was approved.
CREATE TRIGGER "AircraftType_approved_no_update" BEFORE UPDATE ON "AircraftType" WHEN OLD."status" = 'approved'
BEGIN
    SELECT RAISE(ABORT, 'an approved version never changes');
END;

CREATE TRIGGER "AircraftType_approved_no_delete" BEFORE DELETE ON "AircraftType" WHEN OLD."status" = 'approved'
BEGIN
    SELECT RAISE(ABORT, 'an approved version is never removed');
END;
