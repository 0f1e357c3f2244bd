-- People's names apart from the evidence: what opens them there can be taken away.

-- CreateTable
CREATE TABLE "PersonName" (
    "salt" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "PersonName_pkey" PRIMARY KEY ("salt")
);

-- CreateIndex
CREATE INDEX "PersonName_personId_idx" ON "PersonName"("personId");
