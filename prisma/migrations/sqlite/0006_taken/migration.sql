-- What is good for one use, once it was used: two servers on one database must not each take it.

-- CreateTable
CREATE TABLE "Taken" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "until" BIGINT NOT NULL
);
