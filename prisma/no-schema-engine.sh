#!/bin/sh
# Stands in for Prisma's schema engine, so that generating the client downloads nothing.
# Generating never runs the engine: whatever calls this asked for something that needs the real one.
echo "no schema engine here: unset PRISMA_SCHEMA_ENGINE_BINARY to let prisma fetch its own" >&2
exit 1
