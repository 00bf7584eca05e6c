//! What the program answers: every reply against the schema, and every format against the others.

mod agree;
mod corpus;
mod schema;
mod valid;
