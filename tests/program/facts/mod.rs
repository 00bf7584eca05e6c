//! What the program answers: every reply against the schema.

mod corpus;
mod schema;
mod valid;
