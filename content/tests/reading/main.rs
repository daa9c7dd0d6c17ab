//! Content as it is read from its files: what is shipped, and what is told about mistakes.

#![cfg(test)]

mod built_in;
mod copy;
mod ease;
mod french;
mod french_ease;
mod mistakes_in_batches;
mod mistakes_in_figures;
mod mistakes_in_languages;
mod mistakes_in_urgency;
mod mistakes_in_words;
mod no_condition;
mod own_advice;
mod plans;
mod practice;
mod spanish;
