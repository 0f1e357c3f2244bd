-- What people must keep up: the last day of each kind of the house for each person, and their last start at each post.

-- CreateTable
CREATE TABLE "CurrencyDate" (
    "personId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "until" TEXT NOT NULL,

    PRIMARY KEY ("personId", "kind")
);

-- CreateTable
CREATE TABLE "LastStart" (
    "personId" TEXT NOT NULL,
    "post" TEXT NOT NULL,
    "at" BIGINT NOT NULL,

    PRIMARY KEY ("personId", "post")
);
