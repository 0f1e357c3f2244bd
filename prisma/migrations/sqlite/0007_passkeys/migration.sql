-- Passkeys: a second way for a person to sign in on an enrolled device.

-- CreateTable
CREATE TABLE "Passkey" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "personId" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,
    "counter" BIGINT NOT NULL,
    "deviceName" TEXT NOT NULL,
    "createdAt" BIGINT NOT NULL,
    "usedAt" BIGINT
);

-- CreateIndex
CREATE INDEX "Passkey_personId_idx" ON "Passkey"("personId");
