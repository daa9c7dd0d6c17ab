//! Whole journeys through the real server in real browsers.

mod accessibility;
mod artist;
mod client;
mod dates;
mod follow_up;
mod hand_over;
mod hydration;
mod languages;
mod live;
mod loop_alive;
mod loop_plain;
mod offline;
mod pages;
mod paper;
mod photos;
mod photos_script;
mod picture;
mod pseudo;
mod report_once;
mod requests;
mod scene;
mod screenshots;
mod second_visit;
mod wish;
mod wish_typed;
mod zones;
