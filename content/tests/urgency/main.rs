//! How soon to act, by the shipped rules: what holds for every set of answers, and which question comes next.

#![cfg(test)]

mod asking;
mod properties;
mod reports;
mod said;
mod support;
