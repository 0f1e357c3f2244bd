-- Enrolled devices, and sign-ins that end when nobody uses them.
-- Sign-ins from before count as last used when they were made.

-- CreateTable
CREATE TABLE "Device" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,
    "thumbprint" TEXT NOT NULL,
    "enrolledBy" TEXT NOT NULL,
    "enrolledAt" BIGINT NOT NULL,
    "revokedBy" TEXT,
    "revokedAt" BIGINT
);

-- CreateTable
CREATE TABLE "EnrolmentCode" (
    "codeHash" TEXT NOT NULL PRIMARY KEY,
    "deviceName" TEXT NOT NULL,
    "issuedBy" TEXT NOT NULL,
    "expiresAt" BIGINT NOT NULL,
    "usedAt" BIGINT
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_SignIn" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "personId" TEXT NOT NULL,
    "deviceId" TEXT NOT NULL,
    "deviceName" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "thumbprint" TEXT,
    "createdAt" BIGINT NOT NULL,
    "expiresAt" BIGINT NOT NULL,
    "usedAt" BIGINT NOT NULL,
    "revokedAt" BIGINT,
    CONSTRAINT "SignIn_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE RESTRICT
);
INSERT INTO "new_SignIn" ("id", "personId", "deviceId", "deviceName", "tokenHash", "createdAt", "expiresAt", "usedAt", "revokedAt") SELECT "id", "personId", "deviceId", "deviceName", "tokenHash", "createdAt", "expiresAt", "createdAt", "revokedAt" FROM "SignIn";
DROP TABLE "SignIn";
ALTER TABLE "new_SignIn" RENAME TO "SignIn";
CREATE UNIQUE INDEX "SignIn_tokenHash_key" ON "SignIn"("tokenHash");
CREATE INDEX "SignIn_personId_idx" ON "SignIn"("personId");
CREATE INDEX "SignIn_deviceId_idx" ON "SignIn"("deviceId");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE UNIQUE INDEX "Device_thumbprint_key" ON "Device"("thumbprint");
