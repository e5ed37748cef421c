"""Rules held against a house under a code: findings, and which of them a document accepts."""
