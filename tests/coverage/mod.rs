//! Who was judged: grip and reach, tool by tool, and in which one group every assembly is.

mod enough;
mod groups;
mod own_rule;
