-- Enrolled devices, and sign-ins that end when nobody uses them.
-- Sign-ins from before count as last used when they were made.

-- AlterTable
ALTER TABLE "SignIn" ADD COLUMN "thumbprint" TEXT, ADD COLUMN "usedAt" BIGINT;
UPDATE "SignIn" SET "usedAt" = "createdAt";
ALTER TABLE "SignIn" ALTER COLUMN "usedAt" SET NOT NULL;

-- CreateTable
CREATE TABLE "Device" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "publicKey" TEXT NOT NULL,
    "thumbprint" TEXT NOT NULL,
    "enrolledBy" TEXT NOT NULL,
    "enrolledAt" BIGINT NOT NULL,
    "revokedBy" TEXT,
    "revokedAt" BIGINT,

    CONSTRAINT "Device_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "EnrolmentCode" (
    "codeHash" TEXT NOT NULL,
    "deviceName" TEXT NOT NULL,
    "issuedBy" TEXT NOT NULL,
    "expiresAt" BIGINT NOT NULL,
    "usedAt" BIGINT,

    CONSTRAINT "EnrolmentCode_pkey" PRIMARY KEY ("codeHash")
);

-- CreateIndex
CREATE UNIQUE INDEX "Device_thumbprint_key" ON "Device"("thumbprint");
