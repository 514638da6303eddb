// Functions compiled twice, for registers of two and of four doubles; which one runs is chosen when the program starts.
//
// Both do the same operations in the same order, and the build forbids contraction, so both give the same bits. Only code
// without calls of other functions may stand in such a function: what is inlined is compiled for both.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define HOUSELEEK_WIDE_CLONE [[gnu::target_clones("avx2", "default"), gnu::flatten]]
#else
#define HOUSELEEK_WIDE_CLONE
#endif
