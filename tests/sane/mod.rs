//! The two promises: no false alarm on sane tools, no silent pass on blank ones.

mod alarm;
mod blank;
mod shop;
mod tables;
